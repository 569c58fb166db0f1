import { median } from '../basics/statistics.ts';
import type { Reading } from './reading.ts';

/** So long it has to have stood before its last reading is taken, s (own choice: a hand that rests a moment). */
const standsFor_s = 0.6;
/** Where readings were late, those before are looked at too, up to this long ago, s. */
export const looksBack_s = 2;
/** So many are looked at. One alone says nothing of movement: a gauge that sends at a press stands because it was told to. */
const fewest = 3;
/** A display that flickers between neighbouring steps stands still. */
const steps = 3;
/**
 * Of white noise, the range of a second's readings is four to six of its standard deviations; of anything that moves evenly it
 * is many times what one reading differs from the next by.
 */
const deviations = 7;

type Taken = Pick<Reading, 'value'> & { readonly t: number };

/** The readings that say whether it stood: of the last moment, or a few more where the last moment has too few. */
function lately(readings: readonly Taken[]): readonly Taken[] {
  const end = readings.at(-1)?.t ?? 0;
  const last = readings.filter(({ t }) => end - t <= standsFor_s);
  return last.length >= fewest ? last : readings.filter(({ t }) => end - t <= looksBack_s).slice(-fewest);
}

/**
 * Whether a gauge stood still when the last of these readings was taken. Movement is told from noise by how far the readings lie
 * apart against how much neighbours differ.
 * @param readings of the last {@link looksBack_s} or more, oldest first, times in s
 * @param step of the display, in the unit of the readings
 */
export function standsStill(readings: readonly Taken[], step: number): boolean {
  const values = lately(readings).map(({ value }) => value);
  if (values.length < 2) return true;
  const range = Math.max(...values) - Math.min(...values);
  const noise = noiseOf(values);
  return range <= Math.max(steps * step * (1 + 1e-9), deviations * noise) && !drifts(values, step, noise);
}

/** Fewer differences than this have no middle worth the name: then the smallest stands for what noise makes. */
const enough = 7;

/** Standard deviation of one reading, by how much neighbours differ; a jump among them does not make it larger. */
function noiseOf(values: readonly number[]): number {
  const leaps = values.slice(1).map((value, n) => Math.abs(value - (values[n] ?? value)));
  return leaps.length < enough ? Math.min(...leaps) / Math.SQRT2 : spreadOfMiddle * median(leaps);
}

/** Of normal differences the middle one is 0.6745 of their deviation, which is √2 of a reading's. */
const spreadOfMiddle = 1 / (0.6745 * Math.SQRT2);

/** A slow, even way is hidden from its range by noise: the later half lies away from the earlier one. */
function drifts(values: readonly number[], step: number, noise: number): boolean {
  const half = Math.floor(values.length / 2);
  const mean = (some: readonly number[]): number => some.reduce((sum, one) => sum + one, 0) / some.length;
  const way = Math.abs(mean(values.slice(-half)) - mean(values.slice(0, half)));
  return way > steps * step * (1 + 1e-9) + 4 * noise * Math.sqrt(2 / half);
}
