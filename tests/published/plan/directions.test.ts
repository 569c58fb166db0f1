/*
 * Which way the plan moves, against what public manuals agree on.
 * Height: pinion too far out, mark high; too near, mark low: TM 10-3930-671-24, TM 5-3810-306-34, TM 10-3930-660-34,
 * TM 10-3930-653-14&P (texts read as stored excerpts). The lengthwise answer to pinion depth is contradictory between
 * manuals (TM 9-2320-266-34 against TM 5-3805-260-24) and is not tested.
 * "A depth change also changes backlash, less when deeper and more when out" is common practice.
 */
import { describe, expect, test } from 'vitest';
import { asked, edges, mark, planned, setWith, trial } from '../../unit/shared/axle/plan/scenes.ts';

const high = mark({ crown: 0.25, height: 0.5, edges: edges({ crown: 'hard' }) });
const low = mark({ crown: -0.25, height: 0.5, edges: edges({ root: 'hard' }) });

describe.each([
  ['face-milled', 'convex'],
  ['face-milled', 'concave'],
  ['face-hobbed', 'convex'],
  ['face-hobbed', 'concave'],
  ['not-known', 'convex'],
] as const)('%s, driven on the %s flank', (cut, driveFlank) => {
  const set = setWith(cut, driveFlank);

  test('marks high on both flanks: the pinion goes deeper, and the ring gear away to keep the backlash', () => {
    const answer = planned(asked({ set, trials: [trial({ pattern: { drive: high, coast: high } })] }));
    expect(answer.decision).toBe('change');
    expect(answer.pinionOut_mm).toBeLessThan(0);
    expect(answer.ringAway_mm).toBeGreaterThan(0);
  });

  test('marks low on both flanks: the pinion comes out, and the ring gear closer to keep the backlash', () => {
    const answer = planned(asked({ set, trials: [trial({ pattern: { drive: low, coast: low } })] }));
    expect(answer.decision).toBe('change');
    expect(answer.pinionOut_mm).toBeGreaterThan(0);
    expect(answer.ringAway_mm).toBeLessThan(0);
  });
});
