import { closeSync, existsSync, openSync, readSync, rmSync } from 'node:fs';
import { setTimeout as after } from 'node:timers/promises';
import { openBench } from '../../src/main/bench/bench.ts';
import { systemClock } from '../../src/main/clock.ts';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import { benchFolder, withRecords, writeManyBuilds } from '../support/archive/benchRecords.ts';
import { type ArchiveServer, archiveServer, benchRole, password, postgresBin } from '../support/archive/server.ts';
import { valueOf } from '../support/bench/open.ts';
import { inProcess } from '../support/commandLine.ts';

export const takesWords = true;

type Print = (line: string) => void;

/** Sessions of 394 rows each: twenty thousand readings in a build. */
const sessions = 51;

/**
 * What two benches notice of each other by way of an archive: `npm run bench neighbours [TIMES] [BUILDS]`. How soon what one wrote is
 * told at the other, and how long a turn of the journal's thread takes
 * at most while a build of the other is opened.
 */
export default async function bench(print: Print, words: readonly string[]): Promise<void> {
  if (postgresBin() === undefined) return print('there is no PostgreSQL here: nothing was measured');
  const [times = 40, builds = 10] = words.map(Number);
  const server = await archiveServer();
  const folders = [benchFolder(), benchFolder()];
  const opened: BenchService[] = [];
  try {
    const [one, two] = await twoBenches(server, folders, { builds, opened });
    await news({ one, two, times }, print);
    await opening({ two, builds }, print);
  } finally {
    await Promise.all(opened.map((each) => each.close()));
    server.end();
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  }
}

interface Making {
  readonly builds: number;
  readonly opened: BenchService[];
}

async function twoBenches(server: ArchiveServer, folders: readonly string[], { builds, opened }: Making) {
  process.env['PGPASSWORD'] = password;
  await inProcess('archive', 'migrate', '--to', server.to('archive_owner'));
  delete process.env['PGPASSWORD'];
  withRecords(folders[0] ?? '', 'bench-a', (database) => writeManyBuilds(database, builds, sessions));
  for (const [index, folder] of folders.entries()) {
    const service = valueOf(openBench({ folder, clock: systemClock, version: 'measured' }));
    opened.push(service);
    const authority = { none: 'known to everybody' };
    valueOf(await service.answers['archive.choose']({ address: server.to(benchRole(index + 1)), password, authority }));
  }
  const [one, two] = opened;
  if (one === undefined || two === undefined) throw new Error('two benches were wanted');
  while (await isSending(one)) await after(50);
  return [one, two] as const;
}

async function isSending(bench: BenchService): Promise<boolean> {
  const { sending, waiting } = valueOf(await bench.answers['archive.state']({}));
  return sending || !('entries' in waiting) || waiting.entries > 0;
}

interface Hearing {
  readonly one: BenchService;
  readonly two: BenchService;
  readonly times: number;
}

async function news({ one, two, times }: Hearing, print: Print): Promise<void> {
  valueOf(await two.answers['archive.find']({ words: '' }));
  await after(500);
  const took: number[] = [];
  for (let n = 0; n < times; n += 1) {
    const heard = Promise.withResolvers<void>();
    const began = performance.now();
    const told = valueOf(await one.answers['builds.start']({ title: `Axle ${n}`, technician: 'A. Tester' }));
    const stop = two.hear('archive-news', ({ builds }) => builds.includes(told.id) && heard.resolve());
    await heard.promise;
    took.push(performance.now() - began);
    stop();
    // News that follow within a second are told together; each is to be measured alone.
    await after(1100);
  }
  print(`what one bench wrote is told at the other after ${middleAndWorst(took)} ms (wanted 1000), ${times} times`);
}

interface Opening {
  readonly two: BenchService;
  readonly builds: number;
}

async function opening({ two, builds }: Opening, print: Print): Promise<void> {
  const [took, turns, idle]: [number[], number[], number[]] = [[], [], []];
  let readings = 0;
  for (let n = 0; n < builds; n += 1) {
    idle.push((await watched(() => after(300))).longest_ms);
    const { taken, longest_ms, ms } = await watched(() => two.answers['archive.fetch']({ build: `many-${n}` }));
    ({ readings } = valueOf(taken));
    turns.push(longest_ms);
    took.push(ms);
  }
  print(`a build of ${readings} readings of the other bench is opened in ${middleAndWorst(took)} ms`);
  print(
    `meanwhile the longest turn of the journal's thread takes ${leastMiddleAndWorst(turns)} ms of the processor (wanted 2; with nothing to do ${leastMiddleAndWorst(idle)}: the steps of that clock)`,
  );
}

/**
 * Does something, and says what the longest turn of this thread's loop took of the processor meanwhile: on a busy machine a turn
 * waits for the processor as well, which is nobody's work.
 */
async function watched<T>(work: () => Promise<T>) {
  const began = performance.now();
  const clock = processorClock();
  let [isWatching, longest_ms, last] = [true, 0, clock.ms()];
  const look = (): void => {
    if (!isWatching) return;
    const now = clock.ms();
    longest_ms = Math.max(longest_ms, now - last);
    last = now;
    setImmediate(look);
  };
  setImmediate(look);
  const taken = await work();
  const ms = performance.now() - began;
  await after(5);
  isWatching = false;
  clock.close();
  return { taken, ms, longest_ms };
}

/** The processor time of the first thread, brought up to date with each tick (Linux: schedstat of a task); else time on the wall. */
function processorClock(): { readonly ms: () => number; readonly close: () => void } {
  const file = `/proc/self/task/${process.pid}/schedstat`;
  if (!existsSync(file)) return { ms: () => performance.now(), close: () => undefined };
  const opened = openSync(file, 'r');
  const line = Buffer.alloc(64);
  const ms = (): number => Number.parseInt(line.toString('latin1', 0, readSync(opened, line, 0, 64, 0)), 10) / 1e6;
  return { ms, close: () => closeSync(opened) };
}

const leastMiddleAndWorst = (took: readonly number[]): string =>
  `least ${Math.min(...took).toFixed(1)}, middle ${middleAndWorst(took)}`;

function middleAndWorst(took: readonly number[]): string {
  const sorted = took.toSorted((a, b) => a - b);
  return `${(sorted[Math.floor(sorted.length / 2)] ?? 0).toFixed(1)}, worst ${(sorted.at(-1) ?? 0).toFixed(1)}`;
}
