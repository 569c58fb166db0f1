/**
 * Watches a gauge on which nobody pulls. It keeps the zero of the last second or two, so that a zero that creeps is the
 * one of the moment before the pull, and notices when readings leave it. Of fixed size.
 */
export interface RestWatch {
  readonly step: number;
  n: number;
  mean: number;
  /** Mean squares about that mean, and from one reading to the next. */
  square: number;
  stepSquare: number;
  readonly fromT: number;
  readonly first: number;
  lastT: number;
  last: number;
  /** Readings in a row that lie outside, all to one side, and the first of them. */
  out: number;
  outT: number;
  outValue: number;
  outAngle: number;
}

/** What a rest has shown. */
export interface RestSeen {
  readonly zero: number;
  /** Standard uncertainty of that zero from its scatter; the display's step not included. */
  readonly u: number;
  readonly n: number;
  /** When it was last seen, and for how long. */
  readonly t: number;
  readonly seconds: number;
}

/** Readings older than this hardly count any more, s. */
const memory_s = 1;

export const startRest = (step: number, t: number, value: number): RestWatch => ({
  step,
  n: 1,
  mean: value,
  square: 0,
  stepSquare: 0,
  fromT: t,
  first: value,
  lastT: t,
  last: value,
  out: 0,
  outT: Number.NaN,
  outValue: Number.NaN,
  outAngle: Number.NaN,
});

/** Force below this is handling, whatever the gauge resolves, N·m: a tenth of the smallest torque that bearings are set to (from memory). */
const handling_Nm = 0.05;

/** How far a reading may lie from the rest and still belong to it. */
export function bandOf({ step, n, square }: Readonly<RestWatch>): number {
  const early = n < 5 ? 2.5 * step : 1.6 * step;
  return Math.max(early, 5 * Math.sqrt(square), handling_Nm);
}

/** Takes a reading; true when it is the second in a row that has left the rest to the same side. */
export function watchRest(rest: RestWatch, t: number, value: number, angle: number): boolean {
  const off = value - rest.mean;
  if (Math.abs(off) <= bandOf(rest)) {
    join(rest, t, value, off);
    return false;
  }
  const goesOn = rest.out > 0 && Math.sign(rest.outValue - rest.mean) === Math.sign(off);
  if (goesOn) rest.out += 1;
  else Object.assign(rest, { out: 1, outT: t, outValue: value, outAngle: angle });
  return rest.out >= 2;
}

/**
 * Whether what was taken for a rest has climbed evenly since its first reading: a pull that was under way when listening
 * began. The band of a young rest grows with such a climb and would follow it to the top. Noise jumps to and fro as far as it
 * scatters; a climb goes by small steps.
 */
export function isClimbing(
  { n, first, mean, square, stepSquare, fromT }: Readonly<RestWatch>,
  t: number,
  value: number,
) {
  const young = n >= 4 && t - fromT < climb_s;
  const climbed = Math.sign(value - mean) * (mean - first);
  return young && climbed > handling_Nm && stepSquare < evenly * 2 * square;
}

/** A hand has brought its force up by then, s. */
const climb_s = 1;
/** Half the mean square of the steps is the square itself in noise; in a climb of five readings it is a quarter. */
const evenly = 0.5;

function join(rest: RestWatch, t: number, value: number, off: number): void {
  rest.n += 1;
  rest.out = 0;
  const share = Math.max(1 / rest.n, 1 - Math.exp(-(t - rest.lastT) / memory_s));
  rest.mean += share * off;
  rest.square += share * (off * (value - rest.mean) - rest.square);
  rest.stepSquare += share * ((value - rest.last) ** 2 - rest.stepSquare);
  rest.last = value;
  rest.lastT = t;
}

/**
 * The zero of a rest. Neighbouring readings that lie closer together than all of them do are not each new: of n readings
 * with correlation ρ from one to the next n·(1 − ρ)/(1 + ρ) are (first-order process, derived).
 */
export function restSeen(rest: Readonly<RestWatch>): RestSeen {
  const { n, mean, square, stepSquare, lastT, fromT, step } = rest;
  const when = { n, t: lastT, seconds: lastT - fromT };
  // One reading may already be the first of the pull.
  if (n < 2) return { zero: mean, u: Math.abs(mean) / Math.sqrt(3) + step, ...when };
  const remembered = Math.min(n, Math.max(2, (2 * memory_s * (n - 1)) / Math.max(lastT - fromT, 1e-9)));
  const fresh = square > 0 ? Math.min(1, stepSquare / (2 * square)) : 1;
  const own = Math.max(1, (remembered * fresh) / (2 - fresh));
  const sd = n < 5 ? Math.max(Math.sqrt(square), step / 2) : Math.sqrt(square);
  return { zero: mean, u: sd / Math.sqrt(own), ...when };
}

/** The zero a pull is reckoned from, with what it leaves open. */
export interface Zero {
  readonly zero: number;
  readonly u: number;
  /** The rests before and after differ by more than they scatter. */
  readonly moved: boolean;
}

/**
 * The zero under a pull: the middle of the rests before and after it. A zero that went from one to the other lay anywhere
 * between them: the difference over √12. A rest of a single reading counts only where there is no other.
 */
export function zeroOf(before: RestSeen | undefined, after: RestSeen | undefined, step: number): Zero | undefined {
  const [b, a] = [sound(before, after), sound(after, before)];
  if (b === undefined || a === undefined) {
    const only = b ?? a;
    return only === undefined ? undefined : { zero: only.zero, u: only.u, moved: false };
  }
  const apart = Math.abs(a.zero - b.zero);
  const scatter = Math.hypot(a.u, b.u);
  return {
    zero: (a.zero + b.zero) / 2,
    u: Math.hypot(scatter / 2, apart / Math.sqrt(12)),
    moved: apart > 3 * scatter + 2 * step,
  };
}

const sound = (rest: RestSeen | undefined, other: RestSeen | undefined): RestSeen | undefined =>
  rest !== undefined && rest.n < 2 && other !== undefined && other.n >= 2 ? undefined : rest;

/** Whether what was watched stood as still as a gauge at rest does. */
export const standsStill = ({ step, n, square, fromT, lastT }: RestWatch): boolean =>
  n >= 4 && lastT - fromT >= stillFor_s && Math.sqrt(square) < Math.max(3 * step, stillWithin_Nm);

const stillFor_s = 0.3;
/** Further from a rest than this a reading is no longer it, N·m. */
export const stillWithin_Nm = 0.05;
