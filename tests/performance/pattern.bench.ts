import jpeg from 'jpeg-js';
import { asJpeg, type Photograph, photograph } from '../../hardware-sim/photos/photograph.ts';
import { drawScene, type Spoiling, spoilings } from '../../hardware-sim/photos/scene.ts';
import { seeded } from '../../hardware-sim/seeded.ts';
import { edgeNames } from '../../src/shared/axle/mark/mark.ts';
import type { Photo } from '../../src/shared/axle/mark/photo.ts';
import { type PatternReading, readPattern } from '../../src/shared/axle/mark/readPattern.ts';

const twoMegapixels = [1632, 1224] as const;
const twelveMegapixels = [4000, 3000] as const;

interface Trial {
  readonly truth: Photograph['mark'];
  readonly read: PatternReading | undefined;
  readonly why: string | undefined;
  readonly wall_ms: number;
  readonly processor_ms: number;
  readonly decoding_ms: number;
}

/** One photo taken, kept as a phone keeps it, opened and read from the four tapped corners alone. */
function trial(seed: number, size: readonly [number, number], spoilt?: Spoiling): Trial {
  const random = seeded(seed);
  const scene = drawScene(random, size, spoilt);
  const taken = photograph(scene, random);
  const file = asJpeg(taken.photo, scene.quality);
  const decoding = clock();
  const photo: Photo = jpeg.decode(file, { useTArray: true, maxMemoryUsageInMB: 1024 });
  const decoding_ms = decoding().wall_ms;
  const reading = clock();
  const result = readPattern(photo, taken.tapped);
  return {
    truth: taken.mark,
    read: result.ok ? result.value : undefined,
    why: result.ok ? undefined : result.problem.kind,
    decoding_ms,
    ...reading(),
  };
}

function clock() {
  const [wall, processor] = [performance.now(), process.cpuUsage()];
  return () => {
    const used = process.cpuUsage(processor);
    return { wall_ms: performance.now() - wall, processor_ms: (used.user + used.system) / 1000 };
  };
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const shareOf = <T>(list: readonly T[], holds: (one: T) => boolean): number => list.filter(holds).length / list.length;
const at = (values: readonly number[], share: number): string =>
  (values.toSorted((a, b) => a - b)[Math.floor(share * (values.length - 1))] ?? Number.NaN).toFixed(0);

function printAccuracy(print: (line: string) => void, name: string, trials: readonly Trial[]): void {
  const read = trials.flatMap(({ truth, read }) => (read === undefined ? [] : [{ truth, mark: read.mark }]));
  print(`${name}: ${read.length} of ${trials.length} readable photos read; not read: ${reasons(trials)}`);
  for (const [along, limit] of [
    ['heel', 0.03],
    ['crown', 0.05],
  ] as const) {
    const error = ({ truth, mark }: (typeof read)[number]) => mark[along] - truth[along];
    const rms = Math.sqrt(read.reduce((sum, one) => sum + error(one) ** 2, 0) / read.length);
    const within = shareOf(read, (one) => Math.abs(error(one)) <= limit);
    const covers = shareOf(read, (one) => Math.abs(error(one)) <= (one.mark.U95?.[along] ?? 0));
    print(
      `  centre, ${along}: within ${limit} in ${percent(within)} (promised 95), rms ${rms.toFixed(4)}; U95 covers the truth in ${percent(covers)} (promised 92 to 98)`,
    );
  }
  const edges = read.flatMap(({ truth, mark }) =>
    edgeNames.map((edge) => [truth.edges[edge], mark.edges[edge]] as const),
  );
  print(
    `  edges: clear, feathered or hard right in ${percent(shareOf(edges, ([a, b]) => a === b))} (promised 97); reached or not right in ${percent(shareOf(edges, ([a, b]) => (a === 'clear') === (b === 'clear')))}`,
  );
  const off = (of: 'length' | 'height') =>
    read.reduce((sum, { truth, mark }) => sum + mark[of] - truth[of], 0) / read.length;
  print(
    `  extents: length ${off('length').toFixed(3)}, height ${off('height').toFixed(3)} on average against the truth (nothing promised)`,
  );
}

function printTime(print: (line: string) => void, name: string, trials: readonly Trial[]): void {
  const [wall, processor] = [trials.map((one) => one.wall_ms), trials.map((one) => one.processor_ms)];
  const decoding = trials.map((one) => one.decoding_ms);
  print(
    `  time, ${name}: read in median ${at(wall, 0.5)} ms, p95 ${at(wall, 0.95)} ms (promised under 500 at 12 megapixels); processor time median ${at(processor, 0.5)} ms; opening the JPEG before that, in plain JavaScript, median ${at(decoding, 0.5)} ms`,
  );
}

function reasons(trials: readonly Trial[]): string {
  const counts = new Map<string, number>();
  for (const { why } of trials) if (why !== undefined) counts.set(why, (counts.get(why) ?? 0) + 1);
  return [...counts].map(([why, count]) => `${why} ${count}`).join(', ') || 'none';
}

/**
 * How well marks are read off rendered photographs of painted teeth. They are rendered, not taken: the geometry, paint
 * and light are hardware-sim's, and no real photo is among them.
 */
export default async function bench(
  print: (line: string) => void,
  counts = { small: 480, large: 20, spoilt: 12, seedsFrom: 20_000 },
): Promise<void> {
  const run = (count: number, from: number, size: readonly [number, number], spoilt?: Spoiling) =>
    Array.from({ length: count }, (_, n) => trial(from + n, size, spoilt));
  print(`rendered photographs of seeds from ${counts.seedsFrom}; limits were set on seeds 60000 to 60239`);
  for (const [name, count, from, size] of [
    ['2 megapixels', counts.small, counts.seedsFrom, twoMegapixels],
    ['12 megapixels', counts.large, counts.seedsFrom + 10_000, twelveMegapixels],
  ] as const) {
    if (count === 0) continue;
    const trials = run(count, from, size);
    printAccuracy(print, name, trials);
    printTime(print, name, trials);
  }
  if (counts.spoilt === 0) return;
  for (const [n, spoilt] of spoilings.entries()) {
    const trials = run(counts.spoilt, counts.seedsFrom + 20_000 + 100 * n, twoMegapixels, spoilt);
    const answered = trials.filter(({ read }) => read !== undefined).length;
    print(
      `unreadable (${spoilt}): ${answered} of ${trials.length} answered (promised none); refused as ${reasons(trials)}`,
    );
  }
}

if (import.meta.main) {
  const [small = 480, large = 20, spoilt = 12, seedsFrom = 20_000] = process.argv.slice(2).map(Number);
  await bench((line) => void process.stdout.write(`${line}\n`), { small, large, spoilt, seedsFrom });
}
