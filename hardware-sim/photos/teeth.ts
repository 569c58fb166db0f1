import type { GearSet } from '../axle/mesh/gearSet.ts';
import type { FlankName } from '../axle/mesh/ringFlank.ts';
import { cross, minus, norm, unit, type Vector } from '../axle/mesh/vector.ts';

/** What a piece of surface is; compound and wear differ by it. */
export const parts = ['flank', 'other-flank', 'top', 'floor', 'end'] as const;
export type Part = (typeof parts)[number];

/** A surface as a net of points, with the two coordinates a painter knows it by. */
export interface Patch {
  readonly part: Part;
  /** Counts from the photographed tooth. */
  readonly tooth: number;
  readonly across: number;
  readonly up: number;
  readonly points: readonly Vector[];
  readonly normals: readonly Vector[];
  /** First coordinate: heel on flanks, top and floor. Second: crown on flanks, 0…1 from side to side elsewhere. */
  readonly places: readonly (readonly [number, number])[];
}

type Surface = (x: number, y: number) => Vector;

/** Points of both flanks of a tooth, in fractions of the visible flank. */
export function flankPoints(set: GearSet, name: FlankName, tooth: number): Surface {
  const pitch = (2 * Math.PI) / set.spec.ringTeeth;
  // Both flanks are cut through one point of the pitch line; a tooth is half a pitch thick there.
  const turn = tooth * pitch + (name === 'concave' ? pitch / 2 : 0);
  const { ring } = set[name];
  return (heel, crown) => {
    const u = heel * set.frame.faceWidth_mm;
    const [R, z] = set.frame.toAxial(u, set.frame.middleAt(u) + crown * set.frame.heightAt(u));
    const angle = ring.polar(R, z) + turn;
    return [R * Math.cos(angle), R * Math.sin(angle), z];
  };
}

function net(part: Part, tooth: number, size: readonly [number, number], span: Span, surface: Surface): Patch {
  const [across, up] = size;
  const places = Array.from({ length: across * up }, (_, k) => {
    const [x, y] = [(k % across) / (across - 1), Math.floor(k / across) / (up - 1)];
    return [span.x[0] + x * (span.x[1] - span.x[0]), span.y[0] + y * (span.y[1] - span.y[0])] as const;
  });
  const step = 1e-3;
  const normals = places.map(([x, y]) => {
    const normal = cross(
      minus(surface(x + step, y), surface(x - step, y)),
      minus(surface(x, y + step), surface(x, y - step)),
    );
    return norm(normal) > 0 ? unit(normal) : ([0, 0, -1] as const);
  });
  return { part, tooth, across, up, points: places.map(([x, y]) => surface(x, y)), normals, places };
}

interface Span {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}

const FACE = [-0.5, 0.5] as const;
const SIDES = [0, 1] as const;

const between =
  (a: Surface, b: Surface): Surface =>
  (x, y) => {
    const [p, q] = [a(x, y), b(x, y)];
    return [p[0] + y * (q[0] - p[0]), p[1] + y * (q[1] - p[1]), p[2] + y * (q[2] - p[2])];
  };

/** One tooth with its two ends, and the floor of the slot before its photographed flank. */
export function toothPatches(set: GearSet, photographed: FlankName, tooth: number): readonly Patch[] {
  const other: FlankName = photographed === 'convex' ? 'concave' : 'convex';
  const near = flankPoints(set, photographed, tooth);
  const far = flankPoints(set, other, tooth);
  const across = flankPoints(set, other, photographed === 'convex' ? tooth - 1 : tooth + 1);
  const whole = { x: FACE, y: FACE };
  const wide = { x: FACE, y: SIDES };
  const end = (heel: number) =>
    between(
      (x) => near(heel, x),
      (x) => far(heel, x),
    );
  return [
    net('flank', tooth, [65, 17], whole, near),
    net('other-flank', tooth, [49, 9], whole, far),
    net(
      'top',
      tooth,
      [65, 5],
      wide,
      between(
        (x) => near(x, 0.5),
        (x) => far(x, 0.5),
      ),
    ),
    net(
      'floor',
      tooth,
      [65, 5],
      wide,
      between(
        (x) => near(x, -0.5),
        (x) => across(x, -0.5),
      ),
    ),
    net('end', tooth, [9, 5], wide, end(-0.5)),
    net('end', tooth, [9, 5], wide, end(0.5)),
  ];
}
