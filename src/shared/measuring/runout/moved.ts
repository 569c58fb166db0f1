import type { Point } from './trace.ts';

/** What a ride without angle showed of its movement; lengths in mm. */
export interface Movement {
  readonly points: readonly Point[];
  readonly tir: number;
  readonly resolution: number;
  /** Standard uncertainty that noise of every kind leaves in the runout. */
  readonly noise: number;
  /** How far the end of the ride reads from its begin; undefined where nobody said that they are the same place. */
  readonly apart: number | undefined;
}

/**
 * Whether nothing shows that the gear moved. Where no angle is measured only the readings themselves can show it: a stem
 * on a gear that nobody turns, or in the air, shows its noise, or flickers between the two steps it stands between.
 */
export function nothingMoved({ points, tir, resolution, noise, apart }: Movement): boolean {
  if (tir < Math.max(standsMove, resolution / 2 + noFurther * noise)) return true;
  if (tir < few * resolution && isFlicker(points)) return true;
  return apart !== undefined && tir < few * resolution && Math.abs(apart) > tir / 2;
}

/** Of still gauges one in a thousand shows more than this by its noise (normal, both ends together). */
const noFurther = 3.3;
/**
 * A stand that creeps, or shakes under a compressor, moves the needle by this much while nobody turns anything, mm (own
 * choice: drifts of 0.3 µm/s and a hum of ±3 µm). A face that runs true to it needs its angle to prove that it was turned.
 */
export const standsMove = 0.006;
/** Steps of the display within which flicker could be a movement. */
const few = 3;

/**
 * Whether neighbouring readings differ as much as any two do. For readings without order the mean square of neighbours'
 * differences is twice the variance, with a standard deviation of 2/√n (von Neumann 1941; from memory); a gear that turns
 * goes on in the same direction for many readings.
 */
function isFlicker(points: readonly Point[]): boolean {
  const n = points.length;
  const mean = points.reduce((sum, { value }) => sum + value, 0) / n;
  let [squares, steps] = [0, 0];
  for (const [index, { value }] of points.entries()) {
    squares += (value - mean) ** 2;
    steps += index === 0 ? 0 : (value - (points[index - 1]?.value ?? value)) ** 2;
  }
  if (squares === 0) return true;
  const short = 2 - (steps / (n - 1)) * (n / squares);
  return short < (2 * Math.min(noFurther, 0.72 * Math.sqrt(n))) / Math.sqrt(n);
}
