import type { BackupState } from '../../shared/contract/backups.ts';
import { fail, none, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import type { BackupChoices } from '../store/backupChoice.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { makeApart } from './apart.ts';
import { backupDue, tooOld } from './due.ts';
import type { Made, Making } from './make.ts';
import { isOnSameDisk, whyNotThere } from './place.ts';
import { notChosen } from './problems.ts';
import { createRun } from './run.ts';

/** Makes backups by itself: when nobody has worked for a while, and at the end. */
export interface Keeper {
  state(): BackupState;
  /** Refused unless it is a folder that is there, outside the records. */
  choose(folder: string | undefined): Result<BackupState>;
  make(): Promise<Result<BackupState>>;
  stop(): void;
  /** Makes the last one, for as long as the end may take; then it is given up, and the earlier ones are as they were. */
  close(): Promise<void>;
}

export interface KeeperOptions {
  /** The data folder. */
  readonly from: string;
  readonly clock: Clock;
  readonly choices: BackupChoices;
  readonly onState: (state: BackupState) => void;
  /** What a person must know of backups: none for too long, or one that was not made. */
  readonly onWarning: (problem: Problem | undefined) => void;
  /** For tests. */
  readonly make?: (making: Making) => Promise<Result<Made>>;
  readonly endTakes_ms?: number;
  readonly lookEvery_ms?: number;
}

const lookEvery_ms = 60_000;
/** A window waits ten seconds for its bench to end. */
const endTakes_ms = 8000;

export function openKeeper(options: KeeperOptions): Keeper {
  const { from, clock, choices, onState, onWarning } = options;
  let problem: Problem | undefined;
  const run = createRun({ from, clock, make: options.make ?? makeApart, onShare: () => onState(state()) });
  const state = (): BackupState => stateOf(options, run.share(), problem);
  const tell = (): void => {
    onState(state());
    onWarning(problem ?? oldWords(options));
  };
  const make = async (): Promise<Result<BackupState>> => {
    const { folder } = choices.read();
    if (folder === undefined) return fail(notChosen);
    // Before the copy is begun: what is recorded while it is made counts as not in it.
    const before = { recorded: choices.recorded(), line: choices.lastLine() };
    const made = await run.make(folder);
    const kept = made.ok ? keep(choices, made.value, before) : made;
    problem = kept.ok || kept.problem.kind === 'stopped' ? undefined : kept.problem;
    tell();
    return kept.ok ? ok(state()) : kept;
  };
  const look = watching(options, run, { make, tell });
  const timer = setInterval(() => {
    try {
      look();
    } catch (error) {
      onWarning(databaseProblem(error, from));
    }
  }, options.lookEvery_ms ?? lookEvery_ms);
  timer.unref();
  tell();
  return {
    state,
    choose(folder) {
      const chosen = writeChoice(options, folder);
      if (!chosen.ok) return chosen;
      problem = undefined;
      tell();
      return ok(state());
    },
    make,
    stop: () => run.stop(),
    async close() {
      clearInterval(timer);
      try {
        if (run.share() === undefined && !isNew(choices)) return;
        const end = setTimeout(() => run.stop(), options.endTakes_ms ?? endTakes_ms);
        await make();
        clearTimeout(end);
      } catch (error) {
        // Records that cannot be read any more must not keep the bench from ending.
        onWarning(databaseProblem(error, from));
      }
    },
  };
}

function stateOf(
  { choices, from }: KeeperOptions,
  share: number | undefined,
  problem: Problem | undefined,
): BackupState {
  const { folder, last } = choices.read();
  return {
    folder: folder ?? none('not chosen'),
    last:
      last === undefined ? none('none made') : { at: last.at, file: last.file, bytes: last.bytes, builds: last.builds },
    waiting: last?.recorded !== choices.recorded(),
    sameDisk: folder !== undefined && isOnSameDisk(folder, from),
    ...(share === undefined ? {} : { share }),
    ...(problem === undefined ? {} : { problem }),
  };
}

/** Whether there is a folder for backups, and something that is in none of them. */
function isNew(choices: BackupChoices): boolean {
  const { folder, last } = choices.read();
  return folder !== undefined && last?.recorded !== choices.recorded();
}

function oldWords({ choices, clock }: KeeperOptions): Problem | undefined {
  const { folder, last } = choices.read();
  const since = choices.firstBehind(last?.line ?? 0);
  return tooOld({ folder, last: last?.at, since, now_ms: clock.wall_ms() });
}

/** Looks once in a while whether the person has stopped recording, and whether it is time. */
function watching(
  { choices, clock }: KeeperOptions,
  run: { readonly share: () => number | undefined; readonly tried_s: () => number },
  { make, tell }: { readonly make: () => Promise<unknown>; readonly tell: () => void },
): () => void {
  let seen = { recorded: choices.recorded(), since_s: clock.monotonic_s() };
  return () => {
    const now_s = clock.monotonic_s();
    const recorded = choices.recorded();
    if (recorded !== seen.recorded) seen = { recorded, since_s: now_s };
    const due = { isNew: isNew(choices), quiet_s: now_s - seen.since_s, tried_s: now_s - run.tried_s() };
    if (run.share() === undefined && backupDue(due)) void make();
    else tell();
  };
}

const keep = (
  choices: BackupChoices,
  { at, file, bytes, builds }: Made,
  before: { readonly recorded: string; readonly line: number },
): Result<void> => choices.write({ ...choices.read(), last: { at, file, bytes, builds, ...before } }, at);

function writeChoice({ choices, clock, from }: KeeperOptions, folder: string | undefined): Result<void> {
  const wrong = folder === undefined ? undefined : whyNotThere(folder, from);
  if (wrong !== undefined) return fail(wrong);
  const { folder: _, ...kept } = choices.read();
  const at = new Date(clock.wall_ms()).toISOString();
  return choices.write({ ...kept, ...(folder === undefined ? {} : { folder }) }, at);
}
