import type { Point } from './trace.ts';

/** How a place of the gear reads a turn later. */
interface SamePlace {
  /** Later minus earlier, mm: what it is not 0 by is the base or the gear having moved. */
  readonly apart: number;
  /** Standard uncertainty of that where it had to be guessed across a gap; 0 where the same place was read twice. */
  readonly u: number;
}

const turn = 2 * Math.PI;
/** Across a gap as small as a hand stops short of the first place, the surface goes on as it went. */
const nearly = turn / 18;
const besides = turn / 12;

/**
 * Lays the second turn over the first, by interpolating the first at the angles of the second; a rest at the end of the
 * ride then counts with all its readings. Where the ride stopped a few degrees short of a turn, its end is carried on by the
 * slope of the surface there.
 * @param points with their travel, in the order of time
 * @returns undefined where no place was read twice.
 */
export function samePlaceAround(points: readonly Point[]): SamePlace | undefined {
  const way = onward(points);
  const first = firstVisits(way);
  const again = visitedAgain(way, first);
  if (again.length > 0) return { apart: again.reduce((sum, { value }) => sum + value, 0) / again.length, u: 0 };
  return acrossGap(first);
}

/** The places that were read a turn later once more, in the order of time, and how much higher they then read. */
export function readAgain(points: readonly Point[]): readonly Point[] {
  const way = onward(points);
  return visitedAgain(way, firstVisits(way));
}

const visitedAgain = (way: readonly Point[], first: readonly Point[]): readonly Point[] =>
  way.flatMap((point) => {
    const before = point.travel < turn ? undefined : interpolated(first, point.travel % turn);
    return before === undefined ? [] : [{ ...point, value: point.value - before }];
  });

/** The same for a ride of which only begin and end are known to be one place: a line through what came there, to its very end. */
export function samePlaceAtEnds(points: readonly Point[]): SamePlace | undefined {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  const byTime = points.map(({ t, value }) => ({ t, value, travel: t }));
  const early = byTime.filter(({ t }, index) => index < fewestAtEnd || t - first.t <= end_s);
  const late = byTime.filter(({ t }, index) => index >= byTime.length - fewestAtEnd || last.t - t <= end_s);
  return { apart: lineAt(late, last.t).value - lineAt(early, first.t).value, u: 0 };
}

const end_s = 0.3;
const fewestAtEnd = 3;

/** Travel from the first reading on, forward whichever way the gear was turned. */
function onward(points: readonly Point[]): readonly Point[] {
  const [from, to] = [points[0]?.travel ?? 0, points.at(-1)?.travel ?? 0];
  const sense = to < from ? -1 : 1;
  return points.map((point) => ({ ...point, travel: sense * (point.travel - from) }));
}

/** Readings of the first turn that went on; a hand that rocks back visits nothing new. */
function firstVisits(way: readonly Point[]): readonly Point[] {
  let furthest = -Infinity;
  const visits: Point[] = [];
  for (const point of way) {
    if (point.travel <= furthest || point.travel > turn) continue;
    furthest = point.travel;
    visits.push(point);
  }
  return visits;
}

function interpolated(visits: readonly Point[], travel: number): number | undefined {
  const after = firstNotBelow(visits, travel);
  const [next, before] = [visits[after], visits[after - 1]];
  if (next === undefined) return undefined;
  if (before === undefined) return next.travel - travel < nearly / 4 ? next.value : undefined;
  const share = (travel - before.travel) / (next.travel - before.travel);
  return before.value + share * (next.value - before.value);
}

/** By halves: the visits lie in the order of their travel. */
function firstNotBelow(visits: readonly Point[], travel: number): number {
  let [low, high] = [0, visits.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((visits[middle]?.travel ?? Infinity) < travel) low = middle + 1;
    else high = middle;
  }
  return low;
}

function acrossGap(visits: readonly Point[]): SamePlace | undefined {
  const [first, last] = [visits[0], visits.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  const gap = turn - (last.travel - first.travel);
  if (gap > nearly) return undefined;
  const early = lineAt(
    visits.filter(({ travel }) => travel - first.travel <= besides),
    first.travel,
  );
  const late = lineAt(
    visits.filter(({ travel }) => last.travel - travel <= besides),
    last.travel,
  );
  const carried = ((early.slope + late.slope) / 2) * gap;
  return { apart: late.value + carried - early.value, u: (Math.abs(early.slope - late.slope) * gap) / 4 };
}

/** A straight line through the visits: its height at this place, and its slope; flat where there is only one visit. */
function lineAt(visits: readonly Point[], at: number): { readonly value: number; readonly slope: number } {
  const n = visits.length;
  const meanTravel = visits.reduce((sum, { travel }) => sum + travel, 0) / n;
  const meanValue = visits.reduce((sum, { value }) => sum + value, 0) / n;
  let [up, across] = [0, 0];
  for (const { travel, value } of visits) {
    up += (travel - meanTravel) * (value - meanValue);
    across += (travel - meanTravel) ** 2;
  }
  const slope = across === 0 ? 0 : up / across;
  return { value: meanValue + slope * (at - meanTravel), slope };
}
