/** Three numbers in the mesh frame: ring-gear axis z with its body on the +z side, pinion axis along x. Lengths mm. */
export type Vector = readonly [number, number, number];

export const along = (v: Vector, length: number): Vector => [v[0] * length, v[1] * length, v[2] * length];

export const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

export const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

export const norm = (v: Vector): number => Math.hypot(v[0], v[1], v[2]);

export const unit = (v: Vector): Vector => along(v, 1 / norm(v));
