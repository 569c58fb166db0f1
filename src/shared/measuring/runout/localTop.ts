import type { Profile } from './profile.ts';

/** Height of a profile at one place, from the readings around it. */
interface Height {
  readonly value: number;
  /** Variance of that height for a reading's variance of 1. */
  readonly unitVariance: number;
}

/** A place of the profile with its height from all readings, and from each half of them where both halves can tell. */
export interface Place {
  readonly bin: number;
  readonly all: Height;
  readonly halves: readonly [Height, Height];
  /** False where one half has too few readings of its own; both then stand for all. */
  readonly split: boolean;
}

/** Sums over a window: count·xᵏ for k 0…4, value·xᵏ for k 0…2, and how many bins hold a reading. */
interface Sums {
  s0: number;
  s1: number;
  s2: number;
  s3: number;
  s4: number;
  t0: number;
  t1: number;
  t2: number;
  filled: number;
}

/** The heights at every bin that holds a reading, from the readings `reach` bins to each side. */
export function placesOf(profile: Profile, reach: number): readonly Place[] {
  const bins = profile.sums[0].length;
  const places: Place[] = [];
  for (let bin = 0; bin < bins; bin += 1) {
    if ((profile.counts[0][bin] ?? 0) + (profile.counts[1][bin] ?? 0) > 0) places.push(placeAt(profile, bin, reach));
  }
  return places;
}

function placeAt(profile: Profile, bin: number, reach: number): Place {
  if (reach === 0) return unsplit(bin, readHere(profile, bin));
  const [one, other] = [sumsOf(profile, 0, bin, reach), sumsOf(profile, 1, bin, reach)];
  const all = heightOf(together(one, other)) ?? readHere(profile, bin);
  const [first, second] = [heightOf(one), heightOf(other)];
  if (first === undefined || second === undefined) return unsplit(bin, all);
  return { bin, all, halves: [first, second], split: true };
}

const unsplit = (bin: number, all: Height): Place => ({ bin, all, halves: [all, all], split: false });

const readHere = (profile: Profile, bin: number): Height => {
  const n = (profile.counts[0][bin] ?? 0) + (profile.counts[1][bin] ?? 0);
  return { value: ((profile.sums[0][bin] ?? 0) + (profile.sums[1][bin] ?? 0)) / n, unitVariance: 1 / n };
};

const noSums = (): Sums => ({ s0: 0, s1: 0, s2: 0, s3: 0, s4: 0, t0: 0, t1: 0, t2: 0, filled: 0 });

function sumsOf(profile: Profile, half: 0 | 1, middle: number, reach: number): Sums {
  const [counts, values] = [profile.counts[half], profile.sums[half]];
  const bins = values.length;
  const sums = noSums();
  for (let off = -reach; off <= reach; off += 1) {
    const bin = profile.round ? (middle + off + bins) % bins : middle + off;
    const n = counts[bin] ?? 0;
    if (n > 0) addAt(sums, off / reach, n, values[bin] ?? 0);
  }
  return sums;
}

function addAt(sums: Sums, x: number, n: number, value: number): void {
  const xx = x * x;
  sums.s0 += n;
  sums.s1 += n * x;
  sums.s2 += n * xx;
  sums.s3 += n * xx * x;
  sums.s4 += n * xx * xx;
  sums.t0 += value;
  sums.t1 += value * x;
  sums.t2 += value * xx;
  sums.filled += 1;
}

const together = (a: Sums, b: Sums): Sums => ({
  s0: a.s0 + b.s0,
  s1: a.s1 + b.s1,
  s2: a.s2 + b.s2,
  s3: a.s3 + b.s3,
  s4: a.s4 + b.s4,
  t0: a.t0 + b.t0,
  t1: a.t1 + b.t1,
  t2: a.t2 + b.t2,
  filled: a.filled + b.filled,
});

/** Fewest bins with readings that a curve goes through with something to spare. */
const fewestForCurve = 4;
/** A curve through evenly spread readings knows its middle to 2.25/n (derived); beyond twice that it hangs over an end. */
const overhanging = 4.5;

/**
 * The middle of the best parabola through the readings of a window: a lobe is a parabola round its top, so that a wide
 * window does not flatten it as a mean would. Over an end, where the parabola would have to guess, the mean is taken.
 */
function heightOf({ s0, s1, s2, s3, s4, t0, t1, t2, filled }: Sums): Height | undefined {
  if (filled < fewestForCurve) return undefined;
  const [c0, c1, c2] = [s2 * s4 - s3 * s3, s2 * s3 - s1 * s4, s1 * s3 - s2 * s2];
  const determinant = s0 * c0 + s1 * c1 + s2 * c2;
  const unitVariance = c0 / determinant;
  if (!(determinant > 0) || unitVariance * s0 > overhanging) return { value: t0 / s0, unitVariance: 1 / s0 };
  return { value: (c0 * t0 + c1 * t1 + c2 * t2) / determinant, unitVariance };
}
