import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asked, edges, mark, type ModelAxle, planned, promised, setWith, shown, trial } from './scenes.ts';

const cornered = trial({
  pattern: {
    drive: mark({ heel: -0.25, crown: -0.26, height: 0.48, edges: edges({ toe: 'hard', root: 'hard' }) }),
    coast: mark({ heel: 0.05, crown: -0.2, edges: edges({ root: 'hard' }) }),
  },
});

describe('the case everyone meets: drive mark hard at the root and at the toe, backlash in its window', () => {
  const answer = planned(asked({ trials: [cornered], places: { depth: 'under-head' } }));

  test('is a depth fault first: the pinion comes out, a thinner shim', () => {
    expect(answer.decision).toBe('change');
    expect(answer.pinionOut_mm).toBeGreaterThan(0.05);
    expect(answer.reasons[0]).toMatch(
      /root and at the toe is a depth fault first.*comes out.*thinner shim under the pinion head/u,
    );
  });

  test('backlash stays: the ring gear only makes up for the pinion', () => {
    expect(answer.ringAway_mm).toBeLessThan(0);
    // One side shim step is the finest that backlash can be held to.
    expect(Math.abs(promised(answer).backlash.mean_mm - 0.25)).toBeLessThan(0.02);
    expect(answer.reasons[1]).toMatch(/inside its window and stays.*closer only to make up/u);
  });

  test('the mark is expected to rise and to ease from the toe', () => {
    expect(promised(answer).pattern.drive.crown).toBeGreaterThan(-0.2);
    expect(promised(answer).pattern.drive.heel).toBeGreaterThan(-0.2);
    expect(answer.reasons[0]).toContain('the toe is expected to ease with it');
  });

  test('says that a clipped mark is a bound', () => {
    expect(answer.warnings).toContain(
      'The drive mark is cut off at the root and toe: its centre is a bound, not a centre.',
    );
  });

  test('face-hobbed: still out first, but no promise for the toe', () => {
    const hobbed = planned(asked({ set: setWith('face-hobbed'), trials: [cornered] }));
    expect(hobbed.decision).toBe('change');
    expect(hobbed.pinionOut_mm).toBeGreaterThan(0);
    expect(hobbed.reasons[0]).toContain('depth fault first');
    expect(hobbed.reasons[0]).not.toContain('ease');
  });
});

describe('decisions', () => {
  test('a mark in its place and backlash in the middle are left', () => {
    const answer = planned(asked());
    expect(answer.decision).toBe('leave');
    expect([answer.pinionOut_mm, answer.ringAway_mm]).toEqual([0, 0]);
    expect(answer.reasons.join(' ')).toContain('would not better that by more than readings can tell');
  });

  test('only the backlash off: the ring gear moves, the pinion hardly', () => {
    const answer = planned(asked({ trials: [trial({ backlash: { mean_mm: 0.45, min_mm: 0.44, max_mm: 0.46 } })] }));
    expect(answer.decision).toBe('change');
    expect(answer.ringAway_mm).toBeLessThan(-0.1);
    expect(Math.abs(answer.pinionOut_mm)).toBeLessThan(0.12);
    expect(answer.reasons[1]).toMatch(/Backlash of 0\.45 mm does not fit its window/u);
  });

  test('backlash that varies by more than its window is no matter for shims', () => {
    const answer = planned(asked({ trials: [trial({ backlash: { mean_mm: 0.25, min_mm: 0.17, max_mm: 0.33 } })] }));
    expect(answer.decision).toBe('suspect');
    expect(answer.reasons.join(' ')).toMatch(/varies by 0\.16 mm.*seating of the ring gear/u);
  });

  test('one flank held at the heel and the other at the toe: suspect by the second trial, and the sign says why', () => {
    const crossed = {
      drive: mark({ heel: 0.33, length: 0.3, edges: edges({ heel: 'hard' }) }),
      coast: mark({ heel: -0.33, length: 0.3, edges: edges({ toe: 'hard' }) }),
    };
    const first = trial({ pattern: crossed });
    expect(planned(asked({ trials: [first] })).reasons[0]).toContain('No shim in this window promises anything');
    // Both marks rise with the pinion, as marks do; along the face they stay where they were.
    const risen = { drive: { ...crossed.drive, crown: 0.08 }, coast: { ...crossed.coast, crown: 0.08 } };
    const second = { ...first, pinionOut_mm: 0.1, ringAway_mm: -0.04, pattern: risen };
    const answer = planned(asked({ trials: [first, second] }));
    expect(answer.decision).toBe('suspect');
    expect(answer.reasons.join(' ')).toContain('bores out of line or to the gear set');
  });

  test('gears that bind are given room and nothing else, and the plan says that it does not know how much they lack', () => {
    const answer = planned(asked({ trials: [trial({ backlash: { mean_mm: 0, min_mm: 0, max_mm: 0 } })] }));
    expect(answer.decision).toBe('change');
    expect(answer.ringAway_mm).toBeGreaterThan(0.15);
    expect(answer.pinionOut_mm).toBe(0);
    expect(answer.chance).toBeLessThanOrEqual(0.5);
    expect(answer.expected).toEqual({ none: 'gears that bind do not say how far they are pressed together' });
    expect(answer.reasons[0]).toContain('The gears bind: the ring gear moves away');
  });
});

test('with the cut not known the place along the face is withheld, and depth is still set', () => {
  const answer = planned(asked({ set: setWith('not-known'), trials: [cornered] }));
  expect(promised(answer).pattern.drive.heel).toEqual({ none: 'the cut is not known' });
  expect(promised(answer).U95.coast.heel).toEqual({ none: 'the cut is not known' });
  expect(answer.pinionOut_mm).toBeGreaterThan(0);
  expect(answer.reasons.join(' ')).not.toContain('Along the face');
  expect(answer.warnings.join(' ')).toContain('The cut is not known');
});

describe('a used set', () => {
  const own = { drive: mark({ heel: 0.1, crown: 0.15 }), coast: mark({ heel: 0.05, crown: 0.12 }) };
  const target = { kind: 'used-set', ...own, backlash_mm: 0.27 } as const;

  test('is left where its own marks are, although a new set would not be', () => {
    const backlash = { mean_mm: 0.27, min_mm: 0.26, max_mm: 0.28, U95_mm: 0.006 };
    const answer = planned(asked({ target, trials: [trial({ pattern: own, backlash })] }));
    expect(answer.decision).toBe('leave');
    expect(answer.reasons[0]).toContain('where this set ran before');
  });

  test('is brought back to its own marks and its recorded backlash', () => {
    const low = { drive: mark({ heel: 0.02, crown: -0.12 }), coast: mark({ heel: 0.08, crown: -0.1 }) };
    const answer = planned(asked({ target, trials: [trial({ pattern: low })] }));
    expect(answer.decision).toBe('change');
    expect(answer.pinionOut_mm).toBeGreaterThan(0.1);
    expect(promised(answer).pattern.drive.crown).toBeGreaterThan(0.07);
    // Half a side shim step, and what two marks at once cost.
    expect(Math.abs(promised(answer).backlash.mean_mm - 0.27)).toBeLessThan(0.015);
  });
});

const axles: fc.Arbitrary<ModelAxle> = fc.record({
  cut: fc.constantFrom('face-milled' as const, 'face-hobbed' as const),
  driveFlank: fc.constantFrom('convex' as const, 'concave' as const),
  film_mm: fc.double({ min: 0.005, max: 0.012, noNaN: true }),
  start: fc.record({
    pinionOut: fc.double({ min: -0.25, max: 0.25, noNaN: true }),
    ringAway: fc.double({ min: -0.1, max: 0.3, noNaN: true }),
  }),
});

const wholeSteps = (moved: number): boolean => Math.abs(moved / 0.02 - Math.round(moved / 0.02)) < 1e-6;

describe('any axle of the mesh model', () => {
  test('is never planned outside its backlash window, moves in whole shim steps, and comes right', () => {
    fc.assert(
      fc.property(axles, (axle) => {
        const trials = [shown(axle, 0, 0)];
        for (let change = 0; change < 4; change += 1) {
          const answer = planned(asked({ set: setWith(axle.cut, axle.driveFlank), trials }));
          if (answer.decision === 'leave') break;
          expect(answer.decision).toBe('change');
          expect(promised(answer).backlash.min_mm).toBeGreaterThanOrEqual(0.2);
          expect(promised(answer).backlash.max_mm).toBeLessThanOrEqual(0.3);
          expect([answer.pinionOut_mm, answer.ringAway_mm].every(wholeSteps)).toBe(true);
          trials.push(shown(axle, answer.pinionOut_mm, answer.ringAway_mm));
        }
        const last = trials.at(-1);
        expect(Math.abs(last?.pattern.drive.crown ?? 1)).toBeLessThan(0.12);
        expect(last?.backlash.mean_mm).toBeGreaterThan(0.2);
        expect(last?.backlash.mean_mm).toBeLessThan(0.3);
      }),
      { numRuns: 10 },
    );
  }, 90_000);

  test('gets the same plan from the same trials', () => {
    const start = { pinionOut: 0.2, ringAway: 0.1 };
    const trials = [shown({ cut: 'face-milled', driveFlank: 'convex', film_mm: 0.008, start }, 0, 0)];
    expect(planned(asked({ trials }))).toEqual(planned(asked({ trials })));
  });

  test('from the second trial on, the plan says how right it was', () => {
    const start = { pinionOut: -0.25, ringAway: 0.2 };
    const axle: ModelAxle = { cut: 'face-milled', driveFlank: 'convex', film_mm: 0.008, start };
    const first = shown(axle, 0, 0);
    const answer = planned(asked({ trials: [first] }));
    const second = shown(axle, answer.pinionOut_mm, answer.ringAway_mm);
    const next = planned(asked({ trials: [first, second] }));
    expect(answer.reasons.join(' ')).not.toContain('led to expect');
    expect(next.reasons.at(-1)).toMatch(/The trials before led to expect .* as expected/u);
  });
});
