import { expect, it } from 'vitest';
import { mean, median, sd } from '../../../src/shared/basics/statistics.ts';

/**
 * 24 determinations of copper in wholemeal flour, in parts per million, one of them wild (28.95): Analytical Methods
 * Committee, The Analyst 114 (1989). Data retrieved from a public table of the same numbers; mean, standard deviation
 * and median derived, and the same as a common statistics handbook's (recalled).
 *
 * What is tested is the library that the bench takes its mean, deviation and median from, and no estimator of the bench.
 */
const copper = [
  2.9, 3.1, 3.4, 3.4, 3.7, 3.7, 2.8, 2.5, 2.4, 2.4, 2.7, 2.2, 5.28, 3.37, 3.03, 3.03, 28.95, 3.77, 3.4, 2.2, 3.5, 3.6,
  3.7, 3.7,
];

it('the library’s mean, deviation and median: a wild reading moves the first two, and not the third', () => {
  expect(mean(copper)).toBeCloseTo(4.2804166666666665, 12);
  expect(sd(copper)).toBeCloseTo(5.297395979787302, 12);
  expect(median(copper)).toBeCloseTo(3.385, 12);
  const tame = copper.filter((value) => value < 20);
  expect(Math.abs(median(tame) - median(copper))).toBeLessThan(0.02);
  expect(Math.abs(mean(tame) - mean(copper))).toBeGreaterThan(1);
});
