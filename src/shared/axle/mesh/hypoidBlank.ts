import { mm, radians, type Length } from '../../basics/quantity.ts';
import type { Blank, BlankInput } from './blank.ts';

/**
 * Hypoid cones after ISO 23509 Method 1 / the AGMA 2005 lineage (formulas from memory, text not seen). What proves
 * them is no printed example but geometry itself: four invariants, tested in tests/unit/shared/axle/mesh/blank.test.ts.
 */
interface Start {
  readonly input: BlankInput;
  readonly ratio: number;
  readonly ringRadius: number;
  readonly pinionRadius: number;
  /** How much larger the pinion is than its tooth count says, because of the offset. */
  readonly enlargement: number;
  readonly eta: number;
}

function start(input: BlankInput): Start {
  const ratio = input.ringTeeth / input.pinionTeeth;
  const guess = Math.atan(ratio / 1.2);
  const ringRadius = (input.outerDiameter - input.faceWidth * Math.sin(guess)) / 2;
  const plane = Math.asin((input.offset * Math.sin(guess)) / ringRadius);
  const enlargement = Math.tan(input.pinionSpiral) * Math.sin(plane) + Math.cos(plane);
  const pinionRadius = (ringRadius * enlargement) / ratio;
  const eta = Math.atan(input.offset / (ringRadius * Math.tan(guess) + pinionRadius));
  return { input, ratio, ringRadius, pinionRadius, enlargement, eta };
}

/** One pass through the cones for a given pinion offset angle in the axial plane, `eta`. */
function trial(from: Start, eta: number): Blank {
  const { input, ratio, ringRadius, pinionRadius, enlargement } = from;
  const first = Math.asin((input.offset - pinionRadius * Math.sin(eta)) / ringRadius);
  const firstPlane = Math.asin(Math.sin(first) / Math.cos(Math.atan(Math.sin(eta) / Math.tan(first))));
  const reached = (enlargement - Math.cos(firstPlane)) / Math.sin(firstPlane);
  const correction = Math.sin(firstPlane) * (Math.tan(input.pinionSpiral) - reached);
  const grown = (ringRadius * correction) / ratio;
  const ringOffset = Math.asin(Math.sin(first) - (grown / ringRadius) * Math.sin(eta));
  const pinionPitch = Math.atan(Math.sin(eta) / Math.tan(ringOffset));
  const plane = Math.asin(Math.sin(ringOffset) / Math.cos(pinionPitch));
  const pinionSpiral = Math.atan((enlargement + correction - Math.cos(plane)) / Math.sin(plane));
  const ringPitch = Math.atan(Math.sin(ringOffset) / Math.tan(eta));
  return withLimits({
    kind: 'hypoid',
    ratio,
    pinionPitch: radians(pinionPitch),
    ringPitch: radians(ringPitch),
    pinionSpiral: radians(pinionSpiral),
    ringSpiral: radians(pinionSpiral - plane),
    pinionMeanRadius: mm(pinionRadius + grown),
    ringMeanRadius: mm(ringRadius),
    ringMeanCone: mm(ringRadius / Math.sin(ringPitch)),
    ringOuterCone: mm(input.outerDiameter / (2 * Math.sin(ringPitch))),
    offset: input.offset,
    ringOffsetAngle: radians(ringOffset),
    pitchPlaneOffsetAngle: radians(plane),
  });
}

/** Pressure angle and lengthwise radius at which neither flank is favoured: they follow from the cones alone. */
function withLimits(cones: Omit<Blank, 'limitPressure' | 'limitRadius'>): Blank {
  const { pinionPitch, ringPitch, pinionSpiral, ringSpiral, ringMeanCone, pitchPlaneOffsetAngle } = cones;
  const pinionCone = cones.pinionMeanRadius / Math.sin(pinionPitch);
  const onPinion = pinionCone * Math.tan(pinionPitch);
  const onRing = ringMeanCone * Math.tan(ringPitch);
  const limit = Math.atan(
    ((-Math.tan(pinionPitch) * Math.tan(ringPitch)) / Math.cos(pitchPlaneOffsetAngle)) *
      ((pinionCone * Math.sin(pinionSpiral) - ringMeanCone * Math.sin(ringSpiral)) / (onPinion + onRing)),
  );
  const bend =
    -Math.tan(limit) * (Math.tan(pinionSpiral) / onPinion + Math.tan(ringSpiral) / onRing) +
    1 / (pinionCone * Math.cos(pinionSpiral)) -
    1 / (ringMeanCone * Math.cos(ringSpiral));
  const radius = (Math.tan(pinionSpiral) - Math.tan(ringSpiral)) / (Math.cos(limit) * bend);
  return { ...cones, limitPressure: radians(limit), limitRadius: mm(radius) };
}

/** The cones before any cutter is considered: good for the ring gear, up to 20 % off for the pinion's share. */
export function hypoidFirstTrial(input: BlankInput): Blank {
  const from = start(input);
  return trial(from, from.eta);
}

/**
 * The cones whose limit radius is the cutter's: `eta` is varied until they agree.
 * @returns undefined where no such cones exist near the first trial (very small offsets).
 */
export function hypoidBlank(input: BlankInput, cutterRadius: Length): Blank | undefined {
  const from = start(input);
  const miss = (eta: number): number => (trial(from, eta).limitRadius ?? NaN) / cutterRadius - 1;
  const roots = brackets(from.eta, miss)
    .map(([low, high]) => bisect(miss, low, high))
    .filter((eta) => Math.abs(miss(eta)) < 1e-8);
  const nearest = roots.toSorted((a, b) => distance(a, from.eta) - distance(b, from.eta))[0];
  return nearest === undefined ? undefined : trial(from, nearest);
}

const distance = (a: number, b: number): number => Math.abs(Math.log(a / b));

/** Neighbouring angles, in steps of 3 % round the first trial, between which the miss changes sign. */
function brackets(centre: number, miss: (eta: number) => number): (readonly [number, number])[] {
  const steps = Array.from({ length: 121 }, (_, index) => centre * 1.03 ** (index - 60));
  const pairs = steps.slice(1).map((high, index) => [steps[index] ?? high, high] as const);
  return pairs.filter(([low, high]) => miss(low) * miss(high) <= 0);
}

function bisect(miss: (eta: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  const rising = miss(high) > 0;
  for (let pass = 0; pass < 60; pass += 1) {
    const middle = (low + high) / 2;
    if (miss(middle) > 0 === rising) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
