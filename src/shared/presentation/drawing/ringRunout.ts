import { annulus, arc, clockPoint, line, polygon, smoothClosed } from './paths.ts';
import type { RingInput, RingRunout } from './ringInput.ts';
import { apart, type Lane, radialScale, type RadialScale, type RingLayout } from './ringLayout.ts';
import { largest, smallest } from './scale.ts';
import { circle, type Element, path, pen, roughWidth, text } from './scene.ts';
import { showText, type UnitSystem } from '../../basics/show.ts';

/** Below this full movement the lane is not stretched: gauge noise must not look like a warped gear. */
const leastSpan_mm = 0.03;

/** The gear's deviation around its own middle position, drawn outwards where it reads high. */
export function runoutElements(
  runout: RingRunout,
  layout: RingLayout,
  { axis_deg, system }: { readonly axis_deg: number; readonly system: UnitSystem },
): readonly Element[] {
  if (layout.runout === undefined) return [];
  const { centre, text: letter } = layout;
  const scale = deviationScale(layout.runout, runout);
  const curve = curveOf(runout).map(({ angle_deg, value_mm }) => clockPoint(centre, scale.radius(value_mm), angle_deg));
  const readings = samplePoints(runout).map(({ angle_deg, value_mm }) =>
    circle(clockPoint(centre, scale.radius(value_mm), angle_deg), letter * 0.22, { fill: 'text' }),
  );
  return [
    ...limitElements(runout, layout, scale, system),
    circle(centre, scale.radius(0), { stroke: 'line', width: pen(letter), dash: [pen(letter), pen(letter, 3)] }),
    path(smoothClosed(curve), { stroke: 'text', width: pen(letter, 1.8) }),
    ...(readings.length > 24 ? [] : readings),
    tirBracket(runout, layout, scale, axis_deg),
  ];
}

function deviationScale(lane: Lane, { tir_mm, limit_mm = 0 }: RingRunout): RadialScale {
  const half = (Math.max(tir_mm, limit_mm, leastSpan_mm) / 2) * 1.25;
  return radialScale(lane, { low: -half, high: half });
}

/** Where the limit's number stands, by the clock, and its size beside other letters. */
const [limitAt_deg, limitLetters] = [205, 0.85];

/** A limit on full movement has no place of its own, so its band is laid about the middle of what was read. */
function limitElements(
  { limit_mm }: RingRunout,
  { centre, text: letter }: RingLayout,
  scale: RadialScale,
  system: UnitSystem,
): readonly Element[] {
  if (limit_mm === undefined) return [];
  const [inner, outer] = [scale.radius(-limit_mm / 2), scale.radius(limit_mm / 2)];
  // The outer circle is open where its number stands.
  const half = roughWidth(showText(limit_mm, 'length', system), letter * limitLetters) / 2;
  const half_deg = (Math.atan2(half, outer) * 180) / Math.PI;
  return [
    path(annulus(centre, inner, outer), { fill: 'band' }),
    circle(centre, inner, { stroke: 'line', width: pen(letter) }),
    path(arc(centre, outer, limitAt_deg + half_deg, limitAt_deg + 360 - half_deg), {
      stroke: 'line',
      width: pen(letter),
    }),
  ];
}

/** The gear's deviation about its middle, in order of angle from 0 to 360°: its curve, or the few readings there are. */
export function deviationsOf(runout: RingRunout): readonly Deviation[] {
  const curve = curveOf(runout);
  const known = curve.length === 0 ? samplePoints(runout) : curve;
  const first = known[0];
  return first === undefined
    ? []
    : [...known, { ...first, angle_deg: first.angle_deg + 360 }].filter((one) => one.angle_deg <= 360);
}

type Deviation = { readonly angle_deg: number; readonly value_mm: number };

/** The readings about the middle of their range, in order of angle. */
function samplePoints({ samples = [] }: RingRunout): readonly Deviation[] {
  const values = samples.map(({ value_mm }) => value_mm);
  const middle = samples.length === 0 ? 0 : (smallest(values) + largest(values)) / 2;
  return samples
    .map(({ angle_deg, value_mm }) => ({ angle_deg, value_mm: value_mm - middle }))
    .sort((a, b) => a.angle_deg - b.angle_deg);
}

/** Many readings are their own curve; a few are joined by their harmonics, and by nothing where there are none. */
function curveOf(runout: RingRunout): readonly Deviation[] {
  const samples = samplePoints(runout);
  if (samples.length >= 24 || runout.harmonics === undefined) return samples.length >= 24 ? samples : [];
  return Array.from({ length: 72 }, (_, step) => {
    const angle_deg = step * 5;
    return { angle_deg, value_mm: harmonicSum(runout, angle_deg) };
  });
}

const harmonicSum = ({ harmonics = [] }: RingRunout, angle_deg: number): number =>
  harmonics.reduce(
    (sum, { order, amplitude_mm, highSpot_deg }) =>
      sum + amplitude_mm * Math.cos((order * (angle_deg - highSpot_deg) * Math.PI) / 180),
    0,
  );

/** The lane's scale is its own, so the full movement is marked on it; the centre or the caption has the number. */
function tirBracket(
  { tir_mm }: RingRunout,
  { centre, text: letter }: RingLayout,
  scale: RadialScale,
  axis_deg: number,
): Element {
  const [inner, outer] = [scale.radius(-tir_mm / 2), scale.radius(tir_mm / 2)];
  const half_deg = (Math.atan2(letter * 0.35, outer) * 180) / Math.PI;
  const bar = line(clockPoint(centre, inner, axis_deg), clockPoint(centre, outer, axis_deg));
  const ends = [inner, outer].map((radius) => arc(centre, radius, axis_deg - half_deg, axis_deg + half_deg));
  return path(bar + ends.join(''), { stroke: 'quiet', width: pen(letter, 1.4) });
}

/** A full wedge on the teeth at the high spot and a hollow one opposite, joined by a line through the lanes. */
export function highSpotElements({ highSpot_deg }: RingRunout, layout: RingLayout): readonly Element[] {
  if (highSpot_deg === undefined) return [];
  const { centre, heel, toe, text: letter } = layout;
  const opposite = highSpot_deg + 180;
  const free = layout.core;
  return [
    path(wedge(layout, highSpot_deg), { fill: 'text', stroke: 'text', width: pen(letter, 1.2) }),
    path(wedge(layout, opposite), { fill: 'ground', stroke: 'text', width: pen(letter, 1.2) }),
    ...[highSpot_deg, opposite].map((angle) =>
      path(line(clockPoint(centre, free, angle), clockPoint(centre, Math.min(heel, toe), angle)), {
        stroke: 'text',
        width: pen(letter),
        dash: [7, 3, 1, 3].map((length) => pen(letter, length)),
      }),
    ),
  ];
}

/** Less than this between two words on the rim and they run into each other. */
const wordsApart_deg = 17;

/** The runout's own numbers: its limit on the limit's circle, and at the rim beside the full wedge where the gear is high. */
export function runoutNumbers(input: RingInput, runout: RingRunout, layout: RingLayout): readonly Element[] {
  const { centre, heel, text: letter } = layout;
  const high = runout.highSpot_deg;
  const limit = limitNumber(input, runout, layout);
  if (high === undefined) return limit;
  const taken = input.stations.map(({ angle_deg }) => angle_deg);
  const at_deg = [0, 1, -1, 1.5, -1.5]
    .map((steps) => high + steps * wordsApart_deg)
    .find((angle) => taken.every((other) => apart(angle, other) >= wordsApart_deg));
  if (at_deg === undefined) return limit;
  const rim = clockPoint(centre, heel + letter * 0.6, at_deg);
  const turn = (at_deg * Math.PI) / 180;
  const anchor = Math.abs(Math.sin(turn)) < 0.3 ? 'middle' : Math.sin(turn) > 0 ? 'start' : 'end';
  const y = rim.y + letter * (0.35 - 0.5 * Math.cos(turn));
  return [
    ...limit,
    text(`high ${Math.round(high)}°`, { x: rim.x, y }, letter * 0.9, { anchor, ink: 'quiet', tabular: true }),
  ];
}

function limitNumber({ system }: RingInput, runout: RingRunout, layout: RingLayout): readonly Element[] {
  if (runout.limit_mm === undefined || layout.runout === undefined) return [];
  const scale = deviationScale(layout.runout, runout);
  const at = clockPoint(layout.centre, scale.radius(runout.limit_mm / 2), limitAt_deg);
  const words = showText(runout.limit_mm, 'length', system);
  const size = layout.text * limitLetters;
  return [text(words, { x: at.x, y: at.y + size * 0.36 }, size, { anchor: 'middle', ink: 'quiet', tabular: true })];
}

/** Points outwards, as the high spot pushes the indicator's stem. */
function wedge({ centre, heel, toe }: RingLayout, angle_deg: number): string {
  const half_deg = (Math.atan2((heel - toe) * 0.55, toe) * 180) / Math.PI;
  return polygon([
    clockPoint(centre, toe, angle_deg - half_deg),
    clockPoint(centre, heel, angle_deg),
    clockPoint(centre, toe, angle_deg + half_deg),
  ]);
}
