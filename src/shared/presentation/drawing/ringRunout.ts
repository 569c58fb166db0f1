import { annulus, arc, clockPoint, line, polygon, smoothClosed } from './paths.ts';
import type { RingRunout } from './ringInput.ts';
import { type Lane, radialScale, type RadialScale, type RingLayout } from './ringLayout.ts';
import { largest, smallest } from './scale.ts';
import { circle, type Element, path, pen } from './scene.ts';

/** Below this full movement the lane is not stretched: gauge noise must not look like a warped gear. */
const leastSpan_mm = 0.03;

/** The gear's deviation around its own middle position, drawn outwards where it reads high. */
export function runoutElements(runout: RingRunout, layout: RingLayout, axis_deg: number): readonly Element[] {
  if (layout.runout === undefined) return [];
  const { centre, text: letter } = layout;
  const scale = deviationScale(layout.runout, runout);
  const curve = curveOf(runout).map(({ angle_deg, value_mm }) => clockPoint(centre, scale.radius(value_mm), angle_deg));
  const readings = samplePoints(runout).map(({ angle_deg, value_mm }) =>
    circle(clockPoint(centre, scale.radius(value_mm), angle_deg), letter * 0.22, { fill: 'text' }),
  );
  return [
    ...limitElements(runout, layout, scale),
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

/** A limit on full movement has no place of its own, so its band is laid about the middle of what was read. */
function limitElements(
  { limit_mm }: RingRunout,
  { centre, text: letter }: RingLayout,
  scale: RadialScale,
): readonly Element[] {
  if (limit_mm === undefined) return [];
  const [inner, outer] = [scale.radius(-limit_mm / 2), scale.radius(limit_mm / 2)];
  return [
    path(annulus(centre, inner, outer), { fill: 'band' }),
    circle(centre, inner, { stroke: 'line', width: pen(letter) }),
    circle(centre, outer, { stroke: 'line', width: pen(letter) }),
  ];
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

/** Points outwards, as the high spot pushes the indicator's stem. */
function wedge({ centre, heel, toe }: RingLayout, angle_deg: number): string {
  const half_deg = (Math.atan2((heel - toe) * 0.55, toe) * 180) / Math.PI;
  return polygon([
    clockPoint(centre, toe, angle_deg - half_deg),
    clockPoint(centre, heel, angle_deg),
    clockPoint(centre, toe, angle_deg + half_deg),
  ]);
}
