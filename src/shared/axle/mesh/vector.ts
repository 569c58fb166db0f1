/** Three coordinates in the frame of the mesh: x along the pinion axis, z along the ring-gear axis. */
export type Vector = readonly [x: number, y: number, z: number];

export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

export const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

export const times = (factor: number, a: Vector): Vector => [factor * a[0], factor * a[1], factor * a[2]];

/** `p` along `a` and `q` along `b`, added: a point in the plane of two directions. */
export const blend = (p: number, a: Vector, q: number, b: Vector): Vector => plus(times(p, a), times(q, b));

export const unit = (a: Vector): Vector => times(1 / Math.hypot(...a), a);

/** `a` turned by `angle` (rad) about the unit vector `axis`, right-handed. */
export function turned(a: Vector, axis: Vector, angle: number): Vector {
  const c = Math.cos(angle);
  const along = dot(axis, a) * (1 - c);
  return plus(blend(c, a, Math.sin(angle), cross(axis, a)), times(along, axis));
}

/** `a` turned by `angle` (rad) about the ring-gear axis. */
export function rolled(a: Vector, angle: number): Vector {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return [c * a[0] - s * a[1], s * a[0] + c * a[1], a[2]];
}
