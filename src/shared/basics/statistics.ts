import { mean as libraryMean, median as libraryMedian, sampleStandardDeviation } from 'simple-statistics';

/**
 * Statistics of a handful of readings. Where the library does it well it is used (compensated mean, two-pass standard
 * deviation, checked against the NIST reference sets); the rest is written out here.
 */

/** Arithmetic mean. Needs at least one value. */
export const mean = (values: readonly number[]): number => libraryMean(values);

/** Standard deviation of a sample (n − 1). Needs at least two values. */
export const sd = (values: readonly number[]): number => sampleStandardDeviation(values);

/** Middle value, or the mean of the two middle ones. Needs at least one value. */
export const median = (values: readonly number[]): number => libraryMedian(values);

/** Largest minus smallest; 0 for no values. */
export function span(values: Iterable<number>): number {
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high >= low ? high - low : 0;
}

/** Mean and variance that grow one value at a time and keep none of them (Welford's update, textbook). */
export interface Moments {
  n: number;
  mean: number;
  /** Sum of squared distances from the mean. */
  squares: number;
}

export const noMoments = (): Moments => ({ n: 0, mean: 0, squares: 0 });

export function addTo(moments: Moments, value: number): void {
  moments.n += 1;
  const off = value - moments.mean;
  moments.mean += off / moments.n;
  moments.squares += off * (value - moments.mean);
}

/** Standard deviation (n − 1); 0 while there are fewer than two values. */
export const sdOf = ({ n, squares }: Readonly<Moments>): number => (n < 2 ? 0 : Math.sqrt(squares / (n - 1)));
