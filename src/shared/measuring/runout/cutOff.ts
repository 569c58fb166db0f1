import type { Point } from './trace.ts';

/** Readings in a row that show one and the same height. */
interface Stretch {
  readonly value: number;
  readonly n: number;
}

/**
 * Whether one end of what was read looks cut off: the readings stand at their highest or lowest for much longer than a lobe
 * does at its top, and than they stand anywhere else. A stem with too little preload hangs free over the low places, and one
 * pressed in too far stands at the end of its travel over the high ones.
 * @param points the part of the ride in which the gear moved
 * @param resolution step of the display, mm
 */
export function isCutOff(points: readonly Point[], resolution: number): boolean {
  const stretches = stretchesOf(points);
  const values = points.map(({ value }) => value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  if (high - low < fewestSteps * resolution) return false;
  const longest = (of: readonly Stretch[]): number => Math.max(0, ...of.map(({ n }) => n));
  const between = longest(stretches.filter(({ value }) => value !== low && value !== high));
  const natural = points.length * atTop * Math.sqrt((2 * resolution) / (high - low));
  return [low, high].some((end) => {
    const stands = longest(stretches.filter(({ value }) => value === end));
    return stands >= fewestReadings && stands > Math.max(longer * natural, longer * between);
  });
}

/**
 * A single lobe of amplitude A stays within one step δ of its top for √(2δ/A)/π of the turn at most (derived from its
 * parabola); times the root of δ/A.
 */
const atTop = Math.SQRT2 / Math.PI;
/** Beyond what a lobe, or a hand that pauses, makes of it (own choice). */
const longer = 2;
const fewestReadings = 6;
const fewestSteps = 5;

function stretchesOf(points: readonly Point[]): readonly Stretch[] {
  const found: { value: number; n: number }[] = [];
  for (const { value } of points) {
    const last = found.at(-1);
    if (last !== undefined && last.value === value) last.n += 1;
    else found.push({ value, n: 1 });
  }
  return found;
}
