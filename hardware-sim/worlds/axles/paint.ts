import type { FlankSlopes } from './slopes.ts';

/** How one flank is relieved: ½(a u² + 2b uv + c v²) about an apex given in fractions of the flank; 1/mm. */
export interface Relieved {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly heel: number;
  readonly crown: number;
}

/** The visible flank (mm). */
export interface Size {
  readonly face: number;
  readonly height: number;
}

/** A mark as it lies there, before anyone reads it. */
export interface Painted {
  readonly heel: number;
  readonly crown: number;
  readonly length: number;
  readonly height: number;
  /** Gap at the tightest place of each edge over the film: toe, heel, crown, root. */
  readonly edges: readonly [number, number, number, number];
}

/** A quadratic gap over the flank: ½(a u² + 2b uv + c v²) about its own middle, u and v in mm from mid flank. */
export interface Gap {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly u: number;
  readonly v: number;
  /** Its value in its middle, and where it is smallest on the flank (mm). */
  readonly middle: number;
  readonly least: number;
}

/** Moves are from where the gears were cut to stand (mm). All straight lines: relief keeps its shape and slides. */
export function gapOver(slopes: FlankSlopes, relief: Relieved, size: Size, out: number, away: number): Gap {
  const { a, b, c } = relief;
  const { pinionOut: p, ringAway: g } = slopes;
  const [along, up] = [p.along * out + g.along * away, p.up * out + g.up * away];
  const det = a * c - b * b;
  // The slope pushes the middle down its own slope, through the relief's curvature.
  const [du, dv] = [-(c * along - b * up) / det, -(a * up - b * along) / det];
  const u = relief.heel * size.face + p.travel.along * out + g.travel.along * away + du;
  const v = relief.crown * size.height + p.travel.up * out + g.travel.up * away + dv;
  const middle = along * (u - du / 2) + up * (v - dv / 2);
  const gap = { a, b, c, u, v, middle, least: middle };
  return { ...gap, least: middle + leastOn(gap, size) };
}

/** How far above its middle the gap is where it is smallest on the flank: 0 while the middle lies on it. */
function leastOn(gap: Gap, { face, height }: Size): number {
  if (Math.abs(gap.u) <= face / 2 && Math.abs(gap.v) <= height / 2) return 0;
  return Math.min(...edgesOf(gap, { face, height }));
}

/** Smallest gap along each edge, above the middle: toe, heel, crown, root. */
function edgesOf({ a, b, c, u, v }: Gap, { face, height }: Size): [number, number, number, number] {
  const end = (side: number): number => {
    const x = side * (face / 2) - u;
    const y = clip((-b * x) / c, -height / 2 - v, height / 2 - v);
    return (a * x * x + 2 * b * x * y + c * y * y) / 2;
  };
  const rim = (side: number): number => {
    const y = side * (height / 2) - v;
    const x = clip((-b * y) / a, -face / 2 - u, face / 2 - u);
    return (a * x * x + 2 * b * x * y + c * y * y) / 2;
  };
  return [end(-1), end(1), rim(1), rim(-1)];
}

const clip = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
const strips = 16;

/** What the film shows: everything nearer than its thickness to the place that touches, cut off by the edges. */
export function paintedBy(gap: Gap, size: Size, film: number): Painted {
  const { a, b, c } = gap;
  const { face, height } = size;
  const nearest = gap.least - gap.middle;
  const level = 2 * (film + nearest);
  const reach = Math.sqrt((level * c) / (a * c - b * b));
  const [from, to] = [Math.max(-face / 2, gap.u - reach), Math.min(face / 2, gap.u + reach)];
  let [area, alongArea, upArea, low, high, first, last] = [0, 0, 0, height / 2, -height / 2, face / 2, -face / 2];
  for (let strip = 0; strip < strips; strip += 1) {
    const u = from + ((strip + 0.5) / strips) * (to - from);
    const x = u - gap.u;
    const inside = (b * x) ** 2 - c * (a * x * x - level);
    if (inside <= 0) continue;
    const half = Math.sqrt(inside) / c;
    const bottom = Math.max(-height / 2, gap.v - (b * x) / c - half);
    const top = Math.min(height / 2, gap.v - (b * x) / c + half);
    if (top <= bottom) continue;
    area += top - bottom;
    alongArea += (top - bottom) * u;
    upArea += ((top - bottom) * (top + bottom)) / 2;
    [low, high] = [Math.min(low, bottom), Math.max(high, top)];
    [first, last] = [Math.min(first, u), Math.max(last, u)];
  }
  const half = (to - from) / strips / 2;
  const edges = edgesOf(gap, size).map((edge) => (edge - nearest) / film);
  return {
    heel: area > 0 ? alongArea / area / face : 0,
    crown: area > 0 ? upArea / area / height : 0,
    length: Math.max(0, last - first + 2 * half) / face,
    height: Math.max(0, high - low) / height,
    edges: [edges[0] ?? 0, edges[1] ?? 0, edges[2] ?? 0, edges[3] ?? 0],
  };
}
