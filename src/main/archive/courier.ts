import { none, ok, type Result } from '../../shared/basics/result.ts';
import { fail, type Problem } from '../../shared/basics/result.ts';
import type { Reach, Way } from './connect.ts';
import { openWay, whyNot } from './connect.ts';
import { fetchBuild, papersOf } from './fetch.ts';
import { findBuilds, type FoundBuilds } from './find.ts';
import { listening } from './listening.ts';
import { wait_ms } from './patience.ts';
import { sendAll, type Sender } from './send.ts';
import type { Fetched, Standing } from './threadWords.ts';
import { type Waiting, waitingBehind } from './waiting.ts';

interface CourierOptions {
  readonly reach: Reach;
  readonly sender: Sender;
  readonly onStanding: (standing: Standing) => void;
  /** A build of another bench has gone on. */
  readonly onNews: (build: string) => void;
}

/** Goes between this bench and the archive: sends what is written, looks for builds, brings them. */
export interface Courier {
  /** Something was written. */
  poke(): void;
  find(words: string, limit: number): Promise<Result<FoundBuilds>>;
  fetch(build: string): Promise<Result<Fetched>>;
  close(): Promise<void>;
}

/** What is written in one go is sent in one load. */
const gather_ms = 50;

/** Opens it; fails only where what the reach names cannot be read. It sends at once what waits. */
export function openCourier({ reach, sender, onStanding, onNews }: CourierOptions): Result<Courier> {
  const [sending, reading] = [openWay(reach), openWay(reach)];
  if (!sending.ok) return sending;
  if (!reading.ok) return reading;
  const ending = new AbortController();
  const ears = listening(reach, onNews);
  const round = rounds({ way: sending.value, reach, sender, signal: ending.signal, onStanding });
  const asking = async <T>(work: (way: Way) => Promise<Result<T>>): Promise<Result<T>> => {
    try {
      return await work(reading.value);
    } catch (error) {
      return fail(await whyNot(error, reach.address));
    }
  };
  return ok({
    poke: round.soon,
    find(words, limit) {
      ears.listen();
      return asking(async (way) => ok(await findBuilds(way, words, limit)));
    },
    fetch: (build) =>
      asking(async (way) => {
        const bundle = await fetchBuild(way, build);
        return bundle.ok ? ok({ bundle: bundle.value, papers: await papersOf(way, build) }) : bundle;
      }),
    async close() {
      ending.abort();
      round.stop();
      const ends = [sending.value, reading.value].map((way) => way.end({ timeout: 1 }).catch(() => undefined));
      await Promise.all([...ends, ears.close()]);
    },
  });
}

interface Round {
  readonly way: Way;
  readonly reach: Reach;
  readonly sender: Sender;
  readonly signal: AbortSignal;
  readonly onStanding: (standing: Standing) => void;
}

/** Sends when there is something, and again later where it failed: one round at a time. */
function rounds(round: Round): { readonly soon: () => void; readonly stop: () => void } {
  const { way, reach, sender, signal, onStanding } = round;
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
    problem = await tried(way, { reach, sender, signal, onTaken: tell });
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
    stop: () => clearTimeout(timer),
  };
}

async function tried(
  way: Way,
  { reach, sender, signal, onTaken }: Omit<Round, 'way' | 'onStanding'> & { readonly onTaken: () => void },
): Promise<Problem | undefined> {
  try {
    const sent = await sendAll(way, sender, { signal, onTaken });
    return sent.ok ? undefined : sent.problem;
  } catch (error) {
    return signal.aborted ? undefined : whyNot(error, reach.address);
  }
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

function standingOf({ notes }: Sender, counted: (line: number) => Waiting): Omit<Standing, 'sending' | 'problem'> {
  const archive = notes.latest() ?? '';
  const { line, at } = notes.read(archive);
  return {
    lastSent: at === '' ? none('nothing sent yet') : at,
    waiting: counted(line),
    refused: [...notes.refusals(archive)],
    beside: [...notes.beside(archive)],
  };
}
