/** A blank or a flank that the search cannot find: the spec describes no gear that could be cut. */
export class NoSuchGear extends Error {}

const STEPS = 60;

/** Root of a smooth function of one unknown by the secant method, from two starting values. */
export function root(f: (x: number) => number, from: number, second: number, tolerance = 1e-13): number {
  let [x0, x1] = [from, second];
  let f0 = f(x0);
  for (let step = 0; step < STEPS; step += 1) {
    const f1 = f(x1);
    if (f1 === f0 || Math.abs(x1 - x0) < tolerance) return x1;
    [x0, x1, f0] = [x1, x1 - (f1 * (x1 - x0)) / (f1 - f0), f1];
  }
  throw new NoSuchGear('the search for a root did not settle');
}

/** Root of two smooth functions of two unknowns by Newton's method with slopes taken by small differences. */
export function rootOfTwo(
  f: (x: number, y: number) => readonly [number, number],
  start: readonly [number, number],
  step: number,
): readonly [number, number] {
  let [x, y] = start;
  for (let turn = 0; turn < STEPS; turn += 1) {
    const [f0, g0] = f(x, y);
    const [fx, gx] = f(x + step, y);
    const [fy, gy] = f(x, y + step);
    const [a, b, c, d] = [(fx - f0) / step, (fy - f0) / step, (gx - g0) / step, (gy - g0) / step];
    const determinant = a * d - b * c;
    const [dx, dy] = [(-f0 * d + g0 * b) / determinant, (f0 * c - g0 * a) / determinant];
    if (!Number.isFinite(dx) || !Number.isFinite(dy)) break;
    const scale = Math.min(1, (2000 * step) / Math.max(Math.abs(dx), Math.abs(dy)));
    [x, y] = [x + scale * dx, y + scale * dy];
    if (Math.abs(dx) + Math.abs(dy) < 1e-11) return [x, y];
  }
  throw new NoSuchGear('the search for a root of two equations did not settle');
}

/** A place where f turns, and how sharply. */
export interface Turn {
  readonly at: number;
  readonly value: number;
  /** Second derivative there: negative at a largest value. */
  readonly bend: number;
  /** False where the search ran out of steps: f hardly turns here. */
  readonly settled: boolean;
}

/**
 * Where a smooth function turns near a guess: the vertex of a parabola through three points, `reach` apart and drawn
 * closer each time the vertex lies between them.
 */
export function turnNear(f: (x: number) => number, guess: number, reach: number, rounds = 3): Turn {
  let [at, h] = [guess, reach];
  let turn: Turn = { at, value: Number.NaN, bend: Number.NaN, settled: false };
  for (let step = 0, left = rounds; step < STEPS && left > 0; step += 1) {
    const [before, here, after] = [f(at - h), f(at), f(at + h)];
    const slope = (after - before) / (2 * h);
    const bend = (after - 2 * here + before) / (h * h);
    // Never farther than two reaches: a parabola is only trusted near its three points.
    const move = Math.max(-2 * h, Math.min(2 * h, -slope / bend));
    at += move;
    turn = { at, value: here + slope * move + 0.5 * bend * move * move, bend, settled: false };
    if (Math.abs(move) >= h) continue;
    left -= 1;
    h /= 4;
    if (left === 0) turn = { ...turn, settled: true };
  }
  return turn;
}
