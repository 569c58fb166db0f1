import type { Ink } from './inks.ts';
import { arc, box, clockPoint, coordinate, line, polygon } from './paths.ts';
import { circle, type Element, path, type Point } from './scene.ts';

/** What is shown of a result or a gauge. A close call under the simple rule is shown as `too-close`. */
export type State = 'within' | 'outside' | 'too-close' | 'not-measured' | 'stale' | 'overridden';

/** The words that always stand with the shape, so that neither shape nor colour has to be known. */
export const stateWords: Readonly<Record<State, string>> = {
  within: 'within',
  outside: 'outside',
  'too-close': 'too close to call',
  'not-measured': 'not measured',
  stale: 'no reading',
  overridden: 'overridden',
};

/** The ink of a state. Stale borrows the grey of not measured: both say that there is no number. */
export const stateInk = (state: State): Ink => (state === 'stale' ? 'not-measured' : state);

const disc = (at: Point, size: number): readonly Element[] => [circle(at, size / 2, { fill: 'within' })];

/** The stroke leaves the square at both corners, which keeps it apart from a disc at three metres. */
function struckSquare(at: Point, size: number): readonly Element[] {
  const half = size * 0.44;
  const gap = size * 0.25;
  const [left, right, top, bottom] = [at.x - half, at.x + half, at.y - half, at.y + half];
  const upper = polygon([
    { x: left, y: top },
    { x: right - gap, y: top },
    { x: left, y: bottom - gap },
  ]);
  const lower = polygon([
    { x: right, y: bottom },
    { x: left + gap, y: bottom },
    { x: right, y: top + gap },
  ]);
  const reach = size * 0.6;
  const stroke = line({ x: at.x - reach, y: at.y + reach }, { x: at.x + reach, y: at.y - reach });
  return [
    path(box(left, top, 2 * half, 2 * half), { fill: 'surface' }),
    path(upper + lower, { fill: 'outside' }),
    path(stroke, { stroke: 'outside', width: size * 0.13, cap: 'round' }),
  ];
}

function halfDisc(at: Point, size: number): readonly Element[] {
  const width = size * 0.13;
  const r = (size - width) / 2;
  return [
    circle(at, r, { fill: 'surface', stroke: 'too-close', width }),
    path(`${arc(at, r, 180, 360)}Z`, { fill: 'too-close' }),
  ];
}

function ringMark(at: Point, size: number): readonly Element[] {
  const width = size * 0.15;
  return [circle(at, (size - width) / 2, { fill: 'surface', stroke: 'not-measured', width })];
}

/** Eight dots: the gap is the circumference's eighth, a dash of no length with round ends makes the dot. */
function dottedRing(at: Point, size: number): readonly Element[] {
  const width = size * 0.18;
  const r = (size - width) / 2;
  return [circle(at, r, { stroke: 'not-measured', width, dash: [0.01, (2 * Math.PI * r) / 8 - 0.01], cap: 'round' })];
}

function notchedDisc(at: Point, size: number): readonly Element[] {
  const r = size / 2;
  const deep = clockPoint(at, r * 0.1, 45);
  const mouth = arc(at, r, 72, 378).replace('M', 'L');
  return [path(`M${coordinate(deep.x)} ${coordinate(deep.y)}${mouth}Z`, { fill: 'overridden' })];
}

const shapes: Readonly<Record<State, (at: Point, size: number) => readonly Element[]>> = {
  within: disc,
  outside: struckSquare,
  'too-close': halfDisc,
  'not-measured': ringMark,
  stale: dottedRing,
  overridden: notchedDisc,
};

/** The mark of a state, centred at a point, `size` across. */
export const stateMark = (state: State, at: Point, size: number): readonly Element[] => shapes[state](at, size);
