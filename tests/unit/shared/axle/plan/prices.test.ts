import { expect, test } from 'vitest';
import { priceOf } from '../../../../../src/shared/axle/plan/prices.ts';
import { asked, mark, planned, setWith, trial } from './scenes.ts';

const here = { pinionOut: 0, ringAway: 0 };

test('the pinion costs most, packs little, adjusters nothing', () => {
  const [depth, side] = [
    { ...here, pinionOut: 0.05 },
    { ...here, ringAway: -0.05 },
  ];
  const both = { ...depth, ringAway: -0.05 };
  expect(priceOf(here, depth, {})).toBe(0.1);
  expect(priceOf(here, side, {})).toBe(0.03);
  // The packs come out with the case before the pinion can; a cage comes out by itself.
  expect(priceOf(here, both, {})).toBe(0.1);
  expect(priceOf(here, both, { places: { depth: 'under-cage' } })).toBeCloseTo(0.13, 9);
  expect(priceOf(here, side, { places: { sides: 'threaded-adjusters' } })).toBe(0);
  expect(priceOf(here, here, {})).toBe(0);
});

test.each([0.18, 0.32])('a mark in its place and a backlash of %s mm: the ring gear alone', (mean) => {
  const backlash = { mean_mm: mean, min_mm: mean - 0.01, max_mm: mean + 0.01, U95_mm: 0.006 };
  const answer = planned(asked({ trials: [trial({ backlash })] }));
  expect(answer.decision).toBe('change');
  expect(answer.pinionOut_mm).toBe(0);
  expect(Math.sign(answer.ringAway_mm)).toBe(Math.sign(0.25 - mean));
});

test('a backlash far out of its window does not pull the pinion for less than it costs', () => {
  // Face-hobbed, drive concave, mark in its place: 0.025 mm of pinion earned less than ten chances in a hundred.
  const backlash = { mean_mm: 0.36, min_mm: 0.35, max_mm: 0.37, U95_mm: 0.012 };
  const drive = mark({ crown: 0, height: 0.5, U95: { heel: 0.08, crown: 0.08 } });
  const coast = { ...drive, heel: 0 };
  const answer = planned(
    asked({ set: setWith('face-hobbed', 'concave'), trials: [trial({ backlash, pattern: { drive, coast } })] }),
  );
  expect(answer.decision).toBe('change');
  expect(answer.pinionOut_mm).toBe(0);
  expect(answer.ringAway_mm).toBeLessThan(-0.05);
});
