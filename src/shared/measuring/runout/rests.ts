import { grouped, type Point } from './trace.ts';

/**
 * A rest is one place of the gear: no more than this share of the readings belongs to it; enough of them that its own
 * height is not mixed with what comes beside it.
 */
const shareOfRest = 1 / 8;

/**
 * The same ride with its rests before and after the turn shortened: where no angle tells, the order of the readings stands
 * for the place, and a hand that lingered would stretch its place over half the gear.
 * @param band readings of a stem that rests lie within this, mm
 */
export function withShortRests(points: readonly Point[], band: number): readonly Point[] {
  const early = restAtBegin(points, band);
  if (early === points.length) return points;
  const late = restAtBegin(points.toReversed(), band);
  const moving = points.slice(early, points.length - late);
  if (moving.length === 0) return points;
  const most = Math.max(1, Math.ceil(moving.length * shareOfRest));
  const shortened = (rest: readonly Point[]): readonly Point[] =>
    rest.length <= most ? rest : grouped(rest, Math.ceil(rest.length / most));
  return [...shortened(points.slice(0, early)), ...moving, ...shortened(points.slice(points.length - late))];
}

/**
 * The part of the ride in which the gear moved. A gear that starts from a highest or lowest place moves some way before its
 * stem does: from the times at which it has gone `band` and twice that, a parabola tells when it set out.
 */
export function movingPart(points: readonly Point[], band: number): readonly Point[] {
  const begins = setOutAt(points, band);
  const ends = -setOutAt(points.map((point) => ({ ...point, t: -point.t })).toReversed(), band);
  return points.filter(({ t }) => t >= begins && t <= ends);
}

/** Where a parabola through its bottom and these two heights has its bottom: 1/(√2 − 1) times their distance before the first. */
const before = 1 / (Math.SQRT2 - 1);

function setOutAt(points: readonly Point[], band: number): number {
  const first = points[0];
  if (first === undefined) return 0;
  const gone = (far: number): number | undefined => points.find(({ value }) => Math.abs(value - first.value) > far)?.t;
  const [once, twice] = [gone(band), gone(2 * band)];
  if (once === undefined || twice === undefined) return first.t;
  return Math.max(first.t, once - before * (twice - once));
}

/** How many readings pass before the stem goes anywhere. */
function restAtBegin(points: readonly Point[], band: number): number {
  const first = points[0];
  if (first === undefined) return 0;
  const left = points.findIndex(({ value }) => Math.abs(value - first.value) > band);
  return left < 0 ? points.length : left;
}
