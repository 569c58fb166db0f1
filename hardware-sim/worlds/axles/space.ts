/** Vectors of this world's own; three numbers, mm where they are places. */
export type Arrow = readonly [number, number, number];

export const sum = (a: Arrow, b: Arrow): Arrow => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const less = (a: Arrow, b: Arrow): Arrow => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (k: number, a: Arrow): Arrow => [k * a[0], k * a[1], k * a[2]];
export const inner = (a: Arrow, b: Arrow): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const outer = (a: Arrow, b: Arrow): Arrow => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const straight = (a: Arrow): Arrow => times(1 / Math.sqrt(inner(a, a)), a);

/** `a` turned about a unit axis through the origin (rad). */
export function turned(a: Arrow, axis: Arrow, angle: number): Arrow {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return sum(sum(times(c, a), times(s, outer(axis, a))), times(inner(axis, a) * (1 - c), axis));
}
