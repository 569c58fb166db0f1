import type { Point } from './scene.ts';

/** A coordinate as path text. A hundredth of a pixel is finer than any screen or printer shows. */
export const coordinate = (value: number): string => String(Math.round(value * 100) / 100 + 0);

const at = (point: Point): string => `${coordinate(point.x)} ${coordinate(point.y)}`;

export const line = (from: Point, to: Point): string => `M${at(from)}L${at(to)}`;

/** Straight pieces through the points; nothing for fewer than two. */
export const polyline = (points: readonly Point[]): string => (points.length < 2 ? '' : `M${points.map(at).join('L')}`);

export const polygon = (points: readonly Point[]): string => (points.length < 3 ? '' : `${polyline(points)}Z`);

/** A box by its corner and size. */
export const box = (x: number, y: number, width: number, height: number): string =>
  polygon([
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ]);

/** The point at a clock angle: 0° straight up, growing clockwise, as the stations are numbered. */
export function clockPoint(centre: Point, radius: number, angle_deg: number): Point {
  const angle = (angle_deg * Math.PI) / 180;
  return { x: centre.x + radius * Math.sin(angle), y: centre.y - radius * Math.cos(angle) };
}

/** An arc clockwise from one clock angle to another, less than a full turn. */
export function arc(centre: Point, radius: number, from_deg: number, to_deg: number): string {
  const large = to_deg - from_deg > 180 ? 1 : 0;
  const r = coordinate(radius);
  const end = at(clockPoint(centre, radius, to_deg));
  return `M${at(clockPoint(centre, radius, from_deg))}A${r} ${r} 0 ${large} 1 ${end}`;
}

function wholeCircle(centre: Point, radius: number, sweep: 0 | 1): string {
  const r = coordinate(radius);
  const [top, bottom] = [at(clockPoint(centre, radius, 0)), at(clockPoint(centre, radius, 180))];
  return `M${top}A${r} ${r} 0 0 ${sweep} ${bottom}A${r} ${r} 0 0 ${sweep} ${top}Z`;
}

/** A flat ring. The inner circle runs the other way round, so that the non-zero rule leaves the hole open. */
export const annulus = (centre: Point, inner: number, outer: number): string =>
  `${wholeCircle(centre, outer, 1)}${wholeCircle(centre, inner, 0)}`;

const between = (a: Point, b: Point, share: number): Point => ({
  x: a.x + (b.x - a.x) * share,
  y: a.y + (b.y - a.y) * share,
});

/** One cubic piece of a Catmull-Rom spline from `b` to `c`, whose neighbours are `a` and `d`. */
function splinePiece(a: Point, b: Point, c: Point, d: Point): string {
  const first = between(b, { x: b.x + c.x - a.x, y: b.y + c.y - a.y }, 1 / 6);
  const second = between(c, { x: c.x + b.x - d.x, y: c.y + b.y - d.y }, 1 / 6);
  return `C${at(first)} ${at(second)} ${at(c)}`;
}

/** A smooth closed curve through the points, in order. */
export function smoothClosed(points: readonly Point[]): string {
  const first = points[0];
  if (first === undefined || points.length < 3) return '';
  const around = (index: number): Point => points[(index + points.length) % points.length] ?? first;
  const pieces = points.map((point, index) =>
    splinePiece(around(index - 1), point, around(index + 1), around(index + 2)),
  );
  return `M${at(first)}${pieces.join('')}Z`;
}
