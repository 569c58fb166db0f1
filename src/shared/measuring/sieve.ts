/**
 * The first thing a stream of readings goes through: single wild readings fall out, a jump of unit is noticed, and the
 * gauge's noise is estimated from readings that lie next to each other. A reading proves itself by its neighbours, so
 * the sieve runs one reading late. It keeps three readings and a few sums, whatever the length of the session.
 */
export interface Sieve {
  readonly resolution: number;
  /** The reading that has just proved itself. */
  t: number;
  value: number;
  /** NaN where nothing measures the angle. */
  angle: number;
  passed: number;
  spikes: number;
  gaps: number;
  unitJump: boolean;
  before: number;
  last: number;
  pendingT: number;
  pending: number;
  pendingAngle: number;
  step: number;
  bends: number;
  bendSum: number;
}

export const newSieve = (resolution: number): Sieve => ({
  resolution,
  t: Number.NaN,
  value: Number.NaN,
  angle: Number.NaN,
  passed: 0,
  spikes: 0,
  gaps: 0,
  unitJump: false,
  before: Number.NaN,
  last: Number.NaN,
  pendingT: Number.NaN,
  pending: Number.NaN,
  pendingAngle: Number.NaN,
  step: 0,
  bends: 0,
  bendSum: 0,
});

/** Readings further apart than this are not neighbours: slower than any stream (3 a second), as when a button sends them. */
export const neighbours_s = 0.5;

/**
 * Takes one reading and tells whether the one before it has proved itself; that one then stands in the sieve's
 * `t`, `value` and `angle`.
 */
export function sift(sieve: Sieve, t: number, value: number, angle: number): boolean {
  const gap = t - sieve.pendingT > neighbours_s;
  const passes = sieve.pendingT === sieve.pendingT && (gap || !isSpike(sieve, value));
  if (passes) pass(sieve);
  else if (sieve.pendingT === sieve.pendingT) sieve.spikes += 1;
  if (gap) parted(sieve);
  sieve.pendingT = t;
  sieve.pending = value;
  sieve.pendingAngle = angle;
  return passes;
}

/** Lets the last reading through at the end of the stream; false when there is none. */
export function lastOfSieve(sieve: Sieve): boolean {
  if (sieve.pendingT !== sieve.pendingT) return false;
  pass(sieve);
  sieve.pendingT = Number.NaN;
  return true;
}

/**
 * Standard deviation of the gauge's noise, rounding included, from how far each reading lies from the middle of its
 * neighbours. A surface turned past the stem bends little from one reading to the next and hardly adds to it.
 * For normal noise the mean of |x₋ − 2x + x₊| is σ·√6·√(2/π) (derived).
 */
export const noiseOf = ({ bends, bendSum }: Readonly<Sieve>): number =>
  bends === 0 ? 0 : bendSum / bends / (Math.sqrt(6) * Math.sqrt(2 / Math.PI));

/** Alone, far outside both neighbours, and further than the stream has been stepping or its neighbours lie apart. */
function isSpike(sieve: Sieve, next: number): boolean {
  const { last, passed, pending, resolution, step } = sieve;
  if (last !== last || passed < 2) return false;
  const beyond = Math.max(pending - Math.max(last, next), Math.min(last, next) - pending);
  return beyond > Math.max(8 * resolution, 6 * step, 3 * Math.abs(next - last));
}

function pass(sieve: Sieve): void {
  const { last, pending } = sieve;
  if (last === last) {
    const step = Math.abs(pending - last);
    if (step > 20 * sieve.resolution && step > 10 * sieve.step && isUnitJump(last, pending)) sieve.unitJump = true;
    sieve.step += (step - sieve.step) / Math.min(20, sieve.passed + 1);
    if (sieve.before === sieve.before) {
      sieve.bends += 1;
      sieve.bendSum += Math.abs(pending - 2 * last + sieve.before);
    }
  }
  sieve.before = last;
  sieve.last = pending;
  sieve.t = sieve.pendingT;
  sieve.value = pending;
  sieve.angle = sieve.pendingAngle;
  sieve.passed += 1;
}

function parted(sieve: Sieve): void {
  sieve.gaps += 1;
  sieve.before = Number.NaN;
  sieve.last = Number.NaN;
}

/** Millimetres read on as inches or the other way round, give or take the coarser rounding. */
function isUnitJump(from: number, to: number): boolean {
  const ratio = Math.abs(to) > Math.abs(from) ? to / from : from / to;
  return Math.abs(ratio / 25.4 - 1) < 0.03;
}
