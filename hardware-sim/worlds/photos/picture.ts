import { cross, minus, unit, type Vector } from '../../axle/mesh/vector.ts';
import type { Pinhole } from './pinhole.ts';
import { farPoint, flankPoint, type Tooth } from './tooth.ts';

/** What a pixel can look at. */
export const surfaces = ['nothing', 'flank', 'far', 'land', 'floor', 'end'] as const;
export type SurfaceName = (typeof surfaces)[number];

/** What light does at a point: filled in by whoever lights the scene, interpolated over each triangle. */
export type LitAt = (point: Vector, normal: Vector) => readonly number[];

/** What every pixel looks at: surface, place on it, nearness and whatever `LitAt` said there. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly surface: Uint8Array;
  readonly nearness: Float32Array;
  /** Two numbers of place and then those of light, one plane each. */
  readonly planes: readonly Float32Array[];
}

interface Patch {
  readonly name: SurfaceName;
  readonly across: number;
  readonly up: number;
  readonly at: (p: number, q: number) => Vector;
}

const mixed = (a: Vector, b: Vector, share: number): Vector => [
  a[0] + share * (b[0] - a[0]),
  a[1] + share * (b[1] - a[1]),
  a[2] + share * (b[2] - a[2]),
];

/** One tooth, and the floor of the slot that lies before its near flank. p and q run from 0 to 1. */
function patchesOf(tooth: Tooth, turn: number): readonly Patch[] {
  const near = (p: number, q: number) => flankPoint(tooth, p - 0.5, q - 0.5, turn);
  const far = (p: number, q: number) => farPoint(tooth, p - 0.5, q - 0.5, turn);
  const beyond = (p: number) => farPoint(tooth, p - 0.5, -0.5, turn + tooth.side);
  return [
    { name: 'flank', across: 80, up: 20, at: near },
    { name: 'far', across: 40, up: 8, at: far },
    { name: 'land', across: 80, up: 3, at: (p, q) => mixed(near(p, 1), far(p, 1), q) },
    { name: 'floor', across: 80, up: 4, at: (p, q) => mixed(near(p, 0), beyond(p), q) },
    { name: 'end', across: 6, up: 6, at: (p, q) => mixed(near(0, q), far(0, q), p) },
    { name: 'end', across: 6, up: 6, at: (p, q) => mixed(near(1, q), far(1, q), p) },
  ];
}

/** Looks at the tooth and its neighbours. */
export function look(tooth: Tooth, camera: Pinhole, size: readonly [number, number], light: LitAt): Picture {
  const [width, height] = size;
  const numbers = 2 + light([0, 0, 0], [0, 0, 1]).length;
  const plane = () => new Float32Array(width * height);
  const picture: Picture = {
    width,
    height,
    surface: new Uint8Array(width * height),
    nearness: plane(),
    planes: Array.from({ length: numbers }, plane),
  };
  for (const turn of [-2, -1, 0, 1, 2]) {
    for (const patch of patchesOf(tooth, turn)) lay(picture, patch, camera, light);
  }
  return picture;
}

type Corner = readonly number[];

function lay(picture: Picture, patch: Patch, camera: Pinhole, light: LitAt): void {
  const index = surfaces.indexOf(patch.name);
  const corner = (i: number, j: number): Corner => {
    const [p, q] = [i / patch.across, j / patch.up];
    const point = patch.at(p, q);
    return [...camera.see(point), p - 0.5, q - 0.5, ...light(point, normalAt(patch, p, q, camera.eye, point))];
  };
  let below = Array.from({ length: patch.across + 1 }, (_, i) => corner(i, 0));
  for (let j = 1; j <= patch.up; j += 1) {
    const above = Array.from({ length: patch.across + 1 }, (_, i) => corner(i, j));
    for (let i = 0; i < patch.across; i += 1) {
      const [a, b, c, d] = [below[i], below[i + 1], above[i + 1], above[i]];
      if (a === undefined || b === undefined || c === undefined || d === undefined) continue;
      triangle(picture, index, [a, b, c]);
      triangle(picture, index, [a, c, d]);
    }
    below = above;
  }
}

/** Square to the surface, on the side of whoever looks. */
function normalAt(patch: Patch, p: number, q: number, eye: Vector, point: Vector): Vector {
  const e = 1e-3;
  const raw = cross(minus(patch.at(p + e, q), patch.at(p - e, q)), minus(patch.at(p, q + e), patch.at(p, q - e)));
  const normal = unit(raw);
  const towards = minus(eye, point);
  const faces = normal[0] * towards[0] + normal[1] * towards[1] + normal[2] * towards[2] >= 0;
  return faces ? normal : [-normal[0], -normal[1], -normal[2]];
}

const numberAt = (list: readonly number[], n: number): number => list[n] ?? Number.NaN;

/** Every pixel inside three corners that nothing nearer hides. */
function triangle(picture: Picture, index: number, corners: readonly [Corner, Corner, Corner]): void {
  const [a, b, c] = corners;
  const [ax, ay, bx, by, cx, cy] = [
    numberAt(a, 0),
    numberAt(a, 1),
    numberAt(b, 0),
    numberAt(b, 1),
    numberAt(c, 0),
    numberAt(c, 1),
  ];
  const twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
  if (twice === 0 || !Number.isFinite(twice)) return;
  const [top, bottom] = [
    Math.max(0, Math.ceil(Math.min(ay, by, cy))),
    Math.min(picture.height - 1, Math.floor(Math.max(ay, by, cy))),
  ];
  const [left, right] = [
    Math.max(0, Math.ceil(Math.min(ax, bx, cx))),
    Math.min(picture.width - 1, Math.floor(Math.max(ax, bx, cx))),
  ];
  for (let y = top; y <= bottom; y += 1) {
    for (let x = left; x <= right; x += 1) {
      const towardsB = ((x - ax) * (cy - ay) - (cx - ax) * (y - ay)) / twice;
      const towardsC = ((bx - ax) * (y - ay) - (x - ax) * (by - ay)) / twice;
      // A hair of overlap closes the seam between two triangles.
      if (towardsB < -1e-5 || towardsC < -1e-5 || towardsB + towardsC > 1.00001) continue;
      const at = (n: number) =>
        numberAt(a, n) + towardsB * (numberAt(b, n) - numberAt(a, n)) + towardsC * (numberAt(c, n) - numberAt(a, n));
      const nearness = at(2);
      const k = y * picture.width + x;
      if (nearness <= (picture.nearness[k] ?? Infinity)) continue;
      picture.nearness[k] = nearness;
      picture.surface[k] = index;
      for (let n = 0; n < picture.planes.length; n += 1) {
        const plane = picture.planes[n];
        if (plane !== undefined) plane[k] = at(n + 3);
      }
    }
  }
}
