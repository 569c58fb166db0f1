import { type Bin, filledBins, type Profile } from './profile.ts';
import { median } from './statistics.ts';

/** Lowest and highest place of a profile. */
export interface Extremes {
  readonly low: number;
  readonly high: number;
  /** Standard uncertainty that the gauge's noise leaves in high − low. */
  readonly u: number;
}

/**
 * Largest and smallest of what the stem rode over, without what noise adds to them.
 *
 * The largest of many noisy readings is too large: among five hundred of them by three standard deviations at each
 * end. So readings are averaged over as wide a place as it takes to bring the noise under a quarter of the
 * resolution, at most 20° of the turn (one lobe then loses 0.5 %, two lobes 2 %); and where the extremes stand is
 * looked up in one half of the readings, how high they are in the other half, and the same the other way round: noise
 * that chose the place does not also set the height. A feature narrower than that place, a burr, counts when two readings
 * in a row stand out further than noise explains.
 * @returns undefined for an empty profile.
 */
export function extremesOf(profile: Profile, noise: number, resolution: number): Extremes | undefined {
  const bins = filledBins(profile);
  if (bins.length === 0) return undefined;
  const reach = reachFor(profile, bins, noise, resolution);
  const wide = windows(profile, reach);
  const [one, other] = [crossed(wide, 0), crossed(wide, 1)];
  const narrow = standingOut(profile, wide, noise, resolution);
  const readings = wide.reduce((sum, { n }) => sum + n, 0) / wide.length;
  return {
    low: Math.min((one.low + other.low) / 2, ...narrow),
    high: Math.max((one.high + other.high) / 2, ...narrow),
    u: (noise / Math.sqrt(readings)) * Math.SQRT2,
  };
}

/**
 * Bins to each side that are averaged together. How closely readings lie is told by the middle one of the bins, so that
 * a rest, with many readings in one place, does not pass for a dense turn.
 */
function reachFor(profile: Profile, bins: readonly Bin[], noise: number, resolution: number): number {
  const needed = ((4 * noise) / resolution) ** 2;
  if (needed <= 1) return 0;
  const all = profile.round ? profile.sums[0].length : bins.length;
  const perBin = (median(bins.map(({ n }) => n)) * bins.length) / all;
  const widest = profile.round ? 20 : Math.floor(bins.length / 90);
  return Math.min(widest, Math.ceil((needed / perBin - 1) / 2));
}

interface Window {
  /** Index of the bin in the middle. */
  readonly bin: number;
  readonly n: number;
  readonly mean: number;
  /** Means of the two halves; of both together where one of them is empty. */
  readonly halves: readonly [number, number];
}

function windows(profile: Profile, reach: number): readonly Window[] {
  const bins = profile.sums[0].length;
  const found: Window[] = [];
  for (let bin = 0; bin < bins; bin += 1) {
    if ((profile.counts[0][bin] ?? 0) + (profile.counts[1][bin] ?? 0) > 0) found.push(windowAt(profile, bin, reach));
  }
  return found;
}

function windowAt(profile: Profile, middle: number, reach: number): Window {
  const bins = profile.sums[0].length;
  const sum: [number, number] = [0, 0];
  const n: [number, number] = [0, 0];
  for (let off = -reach; off <= reach; off += 1) {
    const bin = profile.round ? (middle + off + bins) % bins : middle + off;
    for (const half of [0, 1] as const) {
      sum[half] += profile.sums[half][bin] ?? 0;
      n[half] += profile.counts[half][bin] ?? 0;
    }
  }
  const mean = (sum[0] + sum[1]) / (n[0] + n[1]);
  const split = n[0] > 0 && n[1] > 0;
  return {
    bin: middle,
    n: n[0] + n[1],
    mean,
    halves: split ? [sum[0] / n[0], sum[1] / n[1]] : [mean, mean],
  };
}

/** Places of the extremes by one half, their heights by the other. */
function crossed(wide: readonly Window[], by: 0 | 1): { readonly low: number; readonly high: number } {
  const height = (1 - by) as 0 | 1;
  let [lowest, highest] = [wide[0], wide[0]];
  for (const window of wide) {
    if (lowest === undefined || window.halves[by] < lowest.halves[by]) lowest = window;
    if (highest === undefined || window.halves[by] > highest.halves[by]) highest = window;
  }
  return { low: lowest?.halves[height] ?? Number.NaN, high: highest?.halves[height] ?? Number.NaN };
}

/**
 * Tops of narrow features: runs of neighbouring bins, two readings or more, that all lie off their surroundings to the
 * same side by more than noise explains.
 */
function standingOut(profile: Profile, wide: readonly Window[], noise: number, resolution: number): readonly number[] {
  const found: number[] = [];
  let run = nowhere;
  for (const { bin, mean } of wide) {
    const n = (profile.counts[0][bin] ?? 0) + (profile.counts[1][bin] ?? 0);
    const value = ((profile.sums[0][bin] ?? 0) + (profile.sums[1][bin] ?? 0)) / n;
    const side = Math.abs(value - mean) > resolution + (4.5 * noise) / Math.sqrt(n) ? Math.sign(value - mean) : 0;
    const goesOn = side === run.side && bin === run.bin + 1;
    if (!goesOn && run.side !== 0 && run.n >= 2) found.push(run.top);
    run = goesOn ? { bin, side, n: run.n + n, top: further(side, run.top, value) } : { bin, side, n, top: value };
  }
  return run.side !== 0 && run.n >= 2 ? [...found, run.top] : found;
}

const nowhere = { bin: -2, side: 0, n: 0, top: 0 };

const further = (side: number, a: number, b: number): number => (side > 0 ? Math.max(a, b) : Math.min(a, b));
