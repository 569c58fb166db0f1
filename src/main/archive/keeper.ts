import type { ArchiveReach, ArchiveState } from '../../shared/contract/archive.ts';
import { fail, isNone, none, type NoNumber, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Database } from '../store/database.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { addressWords, readAddress } from './address.ts';
import { type ArchiveChoice, readChoice, writeChoice } from './choice.ts';
import type { TakenIn } from '../exports/takeIn.ts';
import type { FoundBuilds } from './find.ts';
import { type Keychain, noKeychain } from './keychain.ts';
import { forgetPassword, keepPassword, openedPassword, passwordFile, passwordLies } from './secret.ts';
import { type ArchiveThread, openThread, testApart } from './thread.ts';
import type { Standing } from './threadWords.ts';

/** The archive as a bench has it: a choice, and a thread while there is one. Without a choice nothing is loaded. */
export interface ArchiveKeeper {
  state(): ArchiveState;
  test(reach: ArchiveReach): Promise<Result<{ archive: string }>>;
  choose(reach: ArchiveReach | NoNumber): Promise<Result<ArchiveState>>;
  /** Undefined where no archive is chosen. */
  find(words: string, limit: number): Promise<Result<FoundBuilds>> | undefined;
  fetch(build: string): Promise<Result<TakenIn>>;
  /** Something was written. */
  poke(): void;
  close(): Promise<void>;
}

interface KeeperOptions {
  readonly database: Database;
  /** Where the host of the bench has one to ask. */
  readonly keychain?: Keychain | undefined;
  readonly onState: (state: ArchiveState) => void;
  readonly onNews: (builds: readonly string[]) => void;
  /** Set where this bench must send nothing, whatever is chosen. */
  readonly mayNot?: Problem;
}

const nothingYet: Standing = {
  sending: false,
  lastSent: none('nothing sent yet'),
  waiting: none('not counted yet'),
  refused: [],
  beside: [],
  problem: undefined,
};

const again_ms = 60_000;

export function openArchive(options: KeeperOptions): ArchiveKeeper {
  const { database, keychain = noKeychain, onState, onNews, mayNot } = options;
  const { folder } = database;
  let standing = nothingYet;
  let thread: ArchiveThread | undefined;
  let timer: NodeJS.Timeout | undefined;
  let turn = 0;
  const state = (): ArchiveState => stateOf(database, standing);
  const asked = { folder, keychain, mayNot };
  const tell = (now: Standing): void => {
    standing = now;
    onState(state());
  };
  const begin = async ({ address, authority }: ArchiveChoice): Promise<void> => {
    if (address === undefined || mayNot !== undefined) return;
    turn += 1;
    const [own, opened] = [turn, await openedFor(asked)];
    // Chosen otherwise or ended while the keychain was asked.
    if (own !== turn) return;
    thread = openThread(
      { folder, address, ...opened, ...(authority === undefined ? {} : { authority }) },
      { onStanding: tell, onNews, onProblem: onEnded },
    );
  };
  /** A thread that ended by itself is begun again after a while, for as long as the same archive is chosen. */
  const onEnded = (problem: Problem): void => {
    tell({ ...standing, sending: false, problem });
    const ended = thread;
    timer = setTimeout(() => thread === ended && void begin(readChoice(database)), again_ms).unref();
  };
  const end = async (): Promise<void> => {
    clearTimeout(timer);
    turn += 1;
    const ending = thread;
    thread = undefined;
    await ending?.close();
    standing = nothingYet;
  };
  void begin(readChoice(database));
  return {
    state,
    test: (reach) => tested(reach, asked),
    async choose(reach) {
      const works = isNone(reach) ? undefined : await tested(reach, asked);
      if (works?.ok === false) return works;
      const kept = await keep(database, reach, keychain);
      if (!kept.ok) return kept;
      await end();
      await begin(readChoice(database));
      tell(standing);
      return ok(state());
    },
    find: (words, limit) => thread?.find(words, limit),
    fetch: async (build) => thread?.fetch(build) ?? fail(noneChosen),
    poke: () => thread?.poke(),
    close: end,
  };
}

interface Asked {
  readonly folder: string;
  readonly keychain: Keychain;
  readonly mayNot: Problem | undefined;
}

async function openedFor({ folder, keychain }: Asked): Promise<{ readonly opened?: string }> {
  const opened = await openedPassword(folder, keychain);
  return opened === undefined ? {} : { opened };
}

/** Whether an archive would take what this bench sends. */
async function tested(reach: ArchiveReach, asked: Asked): Promise<Result<{ archive: string }>> {
  if (asked.mayNot !== undefined) return fail(asked.mayNot);
  const address = readAddress(reach.address, 'address');
  if (!address.ok) return address;
  const archive = await testApart({ folder: asked.folder, ...(await openedFor(asked)), ...told(reach) });
  return archive.ok ? ok({ archive: archive.value }) : archive;
}

const told = ({ address, password, authority }: ArchiveReach) => ({
  address: written(address),
  ...(password === undefined ? {} : { password }),
  ...(isNone(authority) ? {} : { authority }),
});

/** One address is written in one way: with its port. */
function written(address: string): string {
  const read = readAddress(address, 'address');
  return read.ok ? addressWords(read.value) : address;
}

/** Keeps a choice with its password, or forgets both. */
async function keep(database: Database, reach: ArchiveReach | NoNumber, keychain: Keychain): Promise<Result<void>> {
  try {
    if (isNone(reach) || reach.password === '') forgetPassword(database.folder);
    else if (reach.password !== undefined) await keepPassword(database.folder, reach.password, keychain);
  } catch (error) {
    return fail(databaseProblem(error, passwordFile(database.folder)));
  }
  const { password: _, ...choice } = isNone(reach) ? { password: undefined } : told(reach);
  return writeChoice(database, choice);
}

function stateOf(database: Database, { problem, ...standing }: Standing): ArchiveState {
  const { address, authority } = readChoice(database);
  return {
    address: address ?? none('not chosen'),
    authority: authority ?? none('known to everybody'),
    password: passwordLies(database.folder),
    ...standing,
    ...(problem === undefined ? {} : { problem: plain(problem) }),
  };
}

const plain = ({ kind, sentence, remedy, field }: Problem): Problem => ({
  kind,
  sentence,
  remedy,
  ...(field === undefined ? {} : { field }),
});

const noneChosen: Problem = {
  kind: 'no-archive',
  sentence: 'This bench sends to no archive.',
  remedy: 'Choose one in Settings.',
};
