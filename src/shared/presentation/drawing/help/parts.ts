import { arc, clockPoint, line, polyline } from '../paths.ts';
import { circle, type Element, path, type Point, text } from '../scene.ts';

/** What the drawings of how a thing is taken are put together from. One frame for all of them. */
export const width = 440;
export const height = 220;
/** In a room of 440 px, the least a screen gives it, the words have the height of the screen's own small ones. */
const word = 14;

export const label = (words: string, at: Point): Element => text(words, at, word, { ink: 'quiet' });

/** Words under, or over, the middle of what they name. */
export const centred = (words: string, at: Point): Element => text(words, at, word, { ink: 'quiet', anchor: 'middle' });

/** A dial with its stem down to `tip`, from above or from the side. */
export function dial(centre: Point, tip: Point): readonly Element[] {
  return [
    path(line(centre, tip), { stroke: 'text', width: 4 }),
    circle(centre, 26, { fill: 'surface', stroke: 'text', width: 2 }),
    path(line(centre, clockPoint(centre, 18, 40)), { stroke: 'text', width: 2, cap: 'round' }),
    circle(tip, 3.5, { fill: 'accent' }),
  ];
}

/** A ring gear seen from its teeth, with every tooth a tick. */
export function ringGear(centre: Point, radius: number): readonly Element[] {
  const teeth = Array.from({ length: 36 }, (_, tooth) =>
    line(clockPoint(centre, radius - 13, tooth * 10), clockPoint(centre, radius, tooth * 10)),
  );
  return [
    circle(centre, radius, { fill: 'metal', stroke: 'line' }),
    path(teeth.join(''), { stroke: 'line' }),
    circle(centre, radius * 0.45, { fill: 'ground', stroke: 'line' }),
  ];
}

/** An arrow along an arc, with its head at the end. */
export function turning(centre: Point, radius: number, from_deg: number, to_deg: number): readonly Element[] {
  const tip = clockPoint(centre, radius, to_deg);
  const head = [clockPoint(centre, radius - 7, to_deg - 7), tip, clockPoint(centre, radius + 7, to_deg - 7)];
  return [path(arc(centre, radius, from_deg, to_deg) + polyline(head), { stroke: 'accent', width: 2.5 })];
}

/** A straight arrow, with its head at the end. */
export function arrow(from: Point, to: Point): Element {
  const away = Math.atan2(to.y - from.y, to.x - from.x);
  const wing = (turn: number): Point => ({
    x: to.x - 10 * Math.cos(away + turn),
    y: to.y - 10 * Math.sin(away + turn),
  });
  return path(line(from, to) + polyline([wing(0.6), to, wing(-0.6)]), { stroke: 'accent', width: 2.5, cap: 'round' });
}

/** There and back again: a head at either end. */
export const toAndFro = (one: Point, other: Point): readonly Element[] => {
  const middle = { x: (one.x + other.x) / 2, y: (one.y + other.y) / 2 };
  return [arrow(middle, one), arrow(middle, other)];
};
