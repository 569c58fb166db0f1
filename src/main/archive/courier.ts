import { setTimeout as after } from 'node:timers/promises';
import { none, ok, type Result } from '../../shared/basics/result.ts';
import { fail, type Problem } from '../../shared/basics/result.ts';
import type { TakenIn } from '../exports/takeIn.ts';
import type { Reach, Way } from './connect.ts';
import { onWay, openWay } from './connect.ts';
import { fetchHome, type Home } from './fetchHome.ts';
import { findBuilds, type FoundBuilds } from './find.ts';
import { unread } from './beside.ts';
import { listening } from './listening.ts';
import { lookBeside } from './lookBeside.ts';
import { wait_ms } from './patience.ts';
import { archiveProblem } from './problems.ts';
import type { Put } from './put.ts';
import { sendAll, type Sender } from './send.ts';
import type { Standing } from './threadWords.ts';
import { type Waiting, waitingBehind } from './waiting.ts';

interface CourierOptions {
  readonly reach: Reach;
  readonly sender: Sender;
  /** The records, open for writing. */
  readonly home: () => Result<Home>;
  readonly onStanding: (standing: Standing) => void;
  /** These builds have gone on in the archive; none named where something may have been missed. */
  readonly onNews: (builds: readonly string[]) => void;
}

/** Goes between this bench and the archive: sends what is written, looks for builds, brings them. */
export interface Courier {
  /** Something was written. */
  poke(): void;
  find(words: string, limit: number): Promise<Result<FoundBuilds>>;
  /** Brings a build into the records of this bench. */
  fetch(build: string): Promise<Result<TakenIn>>;
  close(): Promise<void>;
}

/** What is written in one go is sent in one load. */
const gather_ms = 50;

/** Opens it; fails only where what the reach names cannot be read. It sends at once what waits. */
export function openCourier({ reach, sender, home, onStanding, onNews }: CourierOptions): Result<Courier> {
  const first = openWay(reach);
  if (!first.ok) return first;
  let reading = first.value;
  const ending = new AbortController();
  const asking = async <T>(work: (way: Way) => Promise<Result<T>>): Promise<Result<T>> => {
    const way = reading;
    try {
      return await Promise.race([work(way), noAnswer()]);
    } catch (error) {
      if (way === reading) reading = anew(way, reach);
      return fail(archiveProblem(error, reach.address));
    }
  };
  const ears = listening(reach, {
    onNews(build) {
      onNews([build]);
      void asking(async (way) => ok(await lookBeside(way, sender, build))).then(() => round.tell());
    },
    onGap: () => onNews([]),
  });
  const round = rounds({ reach, sender, signal: ending.signal, onStanding, onBeside: () => ears.listen() });
  return ok({
    poke: round.soon,
    find(words, limit) {
      ears.listen();
      return asking(async (way) => ok(await findBuilds(way, words, limit)));
    },
    fetch(build) {
      ears.listen();
      return asking(async (way) => {
        const opened = home();
        return opened.ok ? fetchHome(way, opened.value, build) : opened;
      });
    },
    async close() {
      ending.abort();
      round.stop();
      await Promise.all([reading.end({ timeout: 1 }).catch(() => undefined), ears.close()]);
    },
  });
}

/** Another way in the place of one that failed. */
function anew(way: Way, reach: Reach): Way {
  void way.end({ timeout: 0 }).catch(() => undefined);
  const opened = openWay(reach);
  return opened.ok ? opened.value : way;
}

const patience_ms = 30_000;

/** Whoever looks for something does not wait longer than this. */
async function noAnswer(): Promise<never> {
  await after(patience_ms, undefined, { ref: false });
  throw Object.assign(new Error('no answer'), { code: 'ETIMEDOUT' });
}

interface Round {
  readonly reach: Reach;
  readonly sender: Sender;
  readonly signal: AbortSignal;
  readonly onStanding: (standing: Standing) => void;
  /** Another bench wrote in a build that was sent. */
  readonly onBeside: () => void;
}

/** Sends when there is something, and again later where it failed: one round at a time. */
function rounds(round: Round): { readonly soon: () => void; readonly tell: () => void; readonly stop: () => void } {
  const { reach, sender, signal, onStanding, onBeside } = round;
  let timer: NodeJS.Timeout | undefined;
  let [isAtIt, wasPoked, failures] = [false, false, 0];
  let problem: Problem | undefined;
  const counted = countsOf(sender);
  const tell = (): void => onStanding({ ...standingOf(sender, counted), sending: isAtIt, problem });
  const later = (wait: number): void => {
    clearTimeout(timer);
    if (!signal.aborted) timer = setTimeout(() => void go(), wait);
  };
  const go = async (): Promise<void> => {
    if (isAtIt) return void (wasPoked = true);
    [isAtIt, wasPoked] = [true, false];
    tell();
    const onTaken = ({ beside }: Put): void => {
      if (beside.length > 0) onBeside();
      tell();
    };
    problem = await tried({ reach, sender, signal, onTaken });
    isAtIt = false;
    failures = problem === undefined ? 0 : failures + 1;
    if (signal.aborted) return;
    tell();
    if (problem !== undefined) later(wait_ms(failures, Math.random()));
    else if (wasPoked) later(gather_ms);
  };
  later(0);
  return {
    // Where the archive is away, what is written waits for the next try like everything else.
    soon: () => (problem === undefined ? later(gather_ms) : tell()),
    tell,
    stop: () => clearTimeout(timer),
  };
}

/** Connects to send, and gives the connection back: five hundred benches share the hundred that a server has. */
async function tried({
  reach,
  sender,
  signal,
  onTaken,
}: Omit<Round, 'onStanding' | 'onBeside'> & { readonly onTaken: (put: Put) => void }): Promise<Problem | undefined> {
  const sent = await onWay(reach, (way, progress) => {
    const taken = (put: Put): void => {
      progress();
      onTaken(put);
    };
    return sendAll(way, sender, { signal, onTaken: taken });
  });
  return sent.ok || signal.aborted ? undefined : sent.problem;
}

/** What waits, counted anew where something changed: counting reads every reading that waits. */
function countsOf({ database }: Sender): (line: number) => Waiting {
  let known = { key: '', waiting: { entries: 0, readings: 0, photos: 0 } };
  return (line) => {
    const last = database.sql.prepare('SELECT coalesce(max(line), 0) FROM notebook_entry').pluck().get();
    const key = `${line} ${String(last)}`;
    if (key !== known.key) known = { key, waiting: waitingBehind(database, line) };
    return known.waiting;
  };
}

function standingOf(
  { notes, database }: Sender,
  counted: (line: number) => Waiting,
): Omit<Standing, 'sending' | 'problem'> {
  const archive = notes.latest() ?? '';
  const { line, at } = notes.read(archive);
  return {
    lastSent: at === '' ? none('nothing sent yet') : at,
    waiting: counted(line),
    refused: [...notes.refusals(archive)],
    beside: unread(database, notes.beside(archive)),
  };
}
