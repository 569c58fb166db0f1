import { type Angle, type Length, mm } from '../basics/quantity.ts';
import { isNone, type OrNone } from '../basics/result.ts';
import { fitHarmonics, type Harmonic, harmonicAt, harmonicOf, turned } from '../basics/harmonics.ts';

/** Backlash of one station: the angle is that of the tooth in mesh. */
export interface BacklashPoint {
  readonly gearAngle: Angle;
  readonly backlash: Length;
  /** Standard uncertainty. */
  readonly u: number;
}

export interface TogetherInput {
  readonly backlash: readonly BacklashPoint[];
  /** First and, if known, second harmonic of the runout, in the gear angle that stood in mesh when it was read. */
  readonly runout: readonly RunoutHarmonic[];
  /** The place under the indicator is this much further on than the tooth in mesh; none when nobody noted it. */
  readonly indicatorFromMesh: OrNone<Angle>;
  /**
   * Change of backlash per mm of runout reading, with its standard uncertainty. Its sign belongs to how the indicator
   * stands: a back face coming towards its indicator takes the teeth away from the pinion and opens the backlash.
   */
  readonly ratio: { readonly perMm: number; readonly u: number };
}

export interface RunoutHarmonic {
  readonly order: number;
  readonly amplitude: Length;
  readonly highSpot: Angle;
  /** Standard uncertainty of each of its two parts. */
  readonly u: number;
}

/**
 * `explained`: the backlash varies as the runout says it must. `not-explained`: it varies otherwise; then the base moved,
 * the pinion moved, or the gear's teeth are not evenly cut. `nothing-to-explain`: neither varies by more than its
 * doubt. `cannot-tell`: the reason says why.
 */
type TogetherAnswer = 'explained' | 'not-explained' | 'nothing-to-explain' | 'cannot-tell';

export interface Together {
  readonly answer: TogetherAnswer;
  readonly reason?: 'no-angle' | 'too-few-stations';
  /** Order by order: what the backlash does, what the runout makes of it, what is left over. */
  readonly orders: readonly OrderCompared[];
  /** Stations that the harmonics leave further off than their doubt, by gear angle: one rock that went wrong, or a tooth. */
  readonly odd: readonly Angle[];
  /** Backlash to expect at any gear angle from the runout alone; undefined where it cannot be told. */
  readonly expectedAt?: (gearAngle: Angle) => Length;
}

interface OrderCompared {
  readonly order: number;
  readonly measured: Harmonic;
  readonly expected: Harmonic;
  readonly left: Harmonic;
  /** Bound that the left-over vector stays under 95 times in 100 when the runout explains all of it. */
  readonly bound: number;
}

/** A vector of two equal, independent normal parts stays within 2.448 standard deviations 95 times in 100 (derived: √(−2 ln 0.05)). */
const inPlane95 = Math.sqrt(-2 * Math.log(0.05));

/** Brings backlash and runout round the gear to the same gear angle and compares them, harmonic by harmonic. */
export function compareTogether(input: TogetherInput): Together {
  const { backlash, runout, indicatorFromMesh, ratio } = input;
  if (isNone(indicatorFromMesh)) return cannotTell('no-angle');
  const fitted = fitBacklash(backlash, runout);
  if (fitted === undefined) return cannotTell('too-few-stations');
  const orders = fitted.harmonics.map((measured) => {
    const read = runout.find(({ order }) => order === measured.order);
    return compareOrder(measured, read, indicatorFromMesh, ratio, stationU(backlash));
  });
  const odd = backlash.filter(({ u }, index) => Math.abs(fitted.residuals[index] ?? 0) > oddBeyond * u);
  return {
    answer: answerOf(orders, odd.length),
    orders,
    odd: odd.map(({ gearAngle }) => gearAngle),
    expectedAt: (angle) => mm(orders.reduce((sum, { expected }) => sum + harmonicAt(expected, angle), fitted.mean)),
  };
}

/** Of a dozen stations none should lie three standard uncertainties off by chance. */
const oddBeyond = 3;

const cannotTell = (reason: 'no-angle' | 'too-few-stations'): Together => ({
  answer: 'cannot-tell',
  reason,
  orders: [],
  odd: [],
});

/** As many of the runout's orders as the stations can tell. */
function fitBacklash(backlash: readonly BacklashPoint[], runout: readonly RunoutHarmonic[]) {
  const points = backlash.map(({ gearAngle, backlash: value }) => ({ angle: gearAngle, value }));
  const orders = runout.map(({ order }) => order);
  return fitHarmonics(points, orders) ?? fitHarmonics(points, [1]);
}

const stationU = (backlash: readonly BacklashPoint[]): number =>
  Math.sqrt(backlash.reduce((sum, { u }) => sum + u * u, 0) / backlash.length) * Math.sqrt(2 / backlash.length);

function compareOrder(
  measured: Harmonic,
  read: RunoutHarmonic | undefined,
  apart: Angle,
  ratio: TogetherInput['ratio'],
  backlashU: number,
): OrderCompared {
  const { amplitude = 0, highSpot = 0, u = 0 } = read ?? {};
  // The high spot stood under the indicator, `apart` further on than the tooth in mesh then: that is its gear angle.
  const onGear = turned(inPlace(measured.order, amplitude, highSpot), apart);
  const expected = harmonicOf(measured.order, onGear.cos * ratio.perMm, onGear.sin * ratio.perMm);
  const left = harmonicOf(measured.order, measured.cos - expected.cos, measured.sin - expected.sin);
  const doubt = Math.hypot(backlashU, ratio.perMm * u, amplitude * ratio.u);
  return { order: measured.order, measured, expected, left, bound: inPlane95 * doubt };
}

const inPlace = (order: number, amplitude: number, highSpot: number): Harmonic =>
  harmonicOf(order, amplitude * Math.cos(order * highSpot), amplitude * Math.sin(order * highSpot));

function answerOf(orders: readonly OrderCompared[], odd: number): TogetherAnswer {
  if (odd > 0 || orders.some(({ left, bound }) => left.amplitude > bound)) return 'not-explained';
  const varies = orders.some(
    ({ measured, expected, bound }) => Math.max(measured.amplitude, expected.amplitude) > bound,
  );
  return varies ? 'explained' : 'nothing-to-explain';
}
