import { line } from './paths.ts';
import type { Point } from './scene.ts';

/**
 * Parallel lines inside a closed outline, as one path. Real strokes rather than a pattern fill: they look the
 * same on screen and on paper, and survive every viewer.
 * @param angle_deg direction of the lines, anticlockwise from level.
 */
export function hatch(outline: readonly Point[], angle_deg: number, spacing: number): string {
  const angle = (angle_deg * Math.PI) / 180;
  const along = { x: Math.cos(angle), y: -Math.sin(angle) };
  const across = { x: Math.sin(angle), y: Math.cos(angle) };
  const offsets = outline.map((point) => point.x * across.x + point.y * across.y);
  const first = Math.ceil(Math.min(...offsets) / spacing);
  const last = Math.floor(Math.max(...offsets) / spacing);
  const count = Number.isFinite(first) ? last - first + 1 : 0;
  return Array.from({ length: Math.max(0, count) }, (_, index) =>
    strokesAt(outline, { along, across }, (first + index) * spacing),
  ).join('');
}

/** Unit vectors along the strokes and across them. */
interface Axes {
  readonly along: Point;
  readonly across: Point;
}

/** The pieces of one line that lie inside: its crossings with the outline, taken in pairs. */
function strokesAt(outline: readonly Point[], axes: Axes, offset: number): string {
  const { along, across } = axes;
  const distances = outline
    .flatMap((from, index) => crossing(from, outline[(index + 1) % outline.length] ?? from, axes, offset))
    .sort((a, b) => a - b);
  const at = (distance: number): Point => ({
    x: across.x * offset + along.x * distance,
    y: across.y * offset + along.y * distance,
  });
  return distances.map((start, index) => (index % 2 === 0 ? piece(start, distances[index + 1], at) : '')).join('');
}

const piece = (start: number, end: number | undefined, at: (distance: number) => Point): string =>
  end === undefined ? '' : line(at(start), at(end));

/** Where the edge meets the line, measured along it; an edge's lower end counts, its upper does not, so that a corner counts once. */
function crossing(from: Point, to: Point, { along, across }: Axes, offset: number): readonly number[] {
  const [a, b] = [from, to].map((point) => point.x * across.x + point.y * across.y - offset);
  if (a === undefined || b === undefined || a < 0 === b < 0) return [];
  const share = a / (a - b);
  const meet = { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
  return [meet.x * along.x + meet.y * along.y];
}
