import { type Angle, radians } from '../../basics/quantity.ts';
import { wrapped } from '../../basics/harmonics.ts';

/**
 * What a stem rode over, in a fixed number of bins: round the gear where the angle is known, else in the order of the
 * readings, two bins folded into one whenever they run out. Every other reading goes into a second half of its own, so
 * that noise can later be kept from choosing its own extremes.
 */
export interface Profile {
  readonly round: boolean;
  readonly sums: readonly [Float64Array, Float64Array];
  readonly counts: readonly [Float64Array, Float64Array];
  /** Readings taken so far. */
  n: number;
  /** Readings in a bin, when laid in order. */
  perBin: number;
}

const binsRound = 720;
const binsInOrder = 512;

const profileOf = (bins: number, round: boolean): Profile => ({
  round,
  sums: [new Float64Array(bins), new Float64Array(bins)],
  counts: [new Float64Array(bins), new Float64Array(bins)],
  n: 0,
  perBin: 1,
});

/** For readings that know their angle: half a degree a bin. */
export const roundProfile = (): Profile => profileOf(binsRound, true);

/** For readings that only know their order. */
export const orderedProfile = (): Profile => profileOf(binsInOrder, false);

export function addAtAngle(profile: Profile, angle: number, value: number): void {
  put(profile, Math.floor((wrapped(angle) * binsRound) / (2 * Math.PI)) % binsRound, value);
}

export function addInOrder(profile: Profile, value: number): void {
  if (profile.n === binsInOrder * profile.perBin) fold(profile);
  put(profile, Math.floor(profile.n / profile.perBin), value);
}

function put(profile: Profile, bin: number, value: number): void {
  const half = (profile.n & 1) as 0 | 1;
  const [sums, counts] = [profile.sums[half], profile.counts[half]];
  sums[bin] = (sums[bin] ?? 0) + value;
  counts[bin] = (counts[bin] ?? 0) + 1;
  profile.n += 1;
}

function fold(profile: Profile): void {
  for (const half of [...profile.sums, ...profile.counts]) {
    for (let bin = 0; bin < half.length; bin += 1) {
      const from = 2 * bin;
      half[bin] = from < half.length ? (half[from] ?? 0) + (half[from + 1] ?? 0) : 0;
    }
  }
  profile.perBin *= 2;
}

/** A copy that further readings do not change. */
export const copyOf = (profile: Profile): Profile => ({
  ...profile,
  sums: [profile.sums[0].slice(), profile.sums[1].slice()],
  counts: [profile.counts[0].slice(), profile.counts[1].slice()],
});

export interface Bin {
  readonly angle: Angle;
  readonly value: number;
  readonly n: number;
}

/** The bins that hold readings, with their means; angles are those of a whole turn shared out evenly. */
export function filledBins(profile: Profile): readonly Bin[] {
  const [sumsA, sumsB] = profile.sums;
  const [countsA, countsB] = profile.counts;
  const bins: Bin[] = [];
  for (let bin = 0; bin < sumsA.length; bin += 1) {
    const n = (countsA[bin] ?? 0) + (countsB[bin] ?? 0);
    const angle = radians(((bin + 0.5) * 2 * Math.PI) / sumsA.length);
    if (n > 0) bins.push({ angle, n, value: ((sumsA[bin] ?? 0) + (sumsB[bin] ?? 0)) / n });
  }
  return bins;
}
