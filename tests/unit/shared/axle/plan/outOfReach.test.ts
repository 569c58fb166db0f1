import { expect, it } from 'vitest';
import type { Mark } from '../../../../../src/shared/axle/mark/mark.ts';
import type { PlanInput } from '../../../../../src/shared/axle/plan/input.ts';
import { plan } from '../../../../../src/shared/axle/plan/plan.ts';
import { valueOf } from '../../../../support/bench/open.ts';

const clear = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;
const mark = (heel: number, crown: number, edges: Partial<Mark['edges']> = {}): Mark => ({
  heel,
  crown,
  length: 0.5,
  height: 0.5,
  slant_deg: 0,
  edges: { ...clear, ...edges },
});

/** A used set with its own marks in the middle, put together again, and painted. */
const painted = (drive: Mark, coast: Mark, looked = false): PlanInput => ({
  set: { pinionTeeth: 11, ringTeeth: 41, outerDiameter_mm: 215.9, cut: 'face-hobbed', driveFlank: 'convex' },
  backlashBasis: { direction: 'along-rotation', at: 'heel' },
  limits: { backlash_mm: [0.152, 0.254] },
  target: { kind: 'used-set', drive: mark(0, 0), coast: mark(0.2, -0.05), backlash_mm: 0.318 },
  shimStep_mm: { pinion: 0.025, side: 0.025 },
  places: { depth: 'under-head', sides: 'outboard-shims' },
  trials: [
    {
      pinionOut_mm: 0,
      ringAway_mm: 0,
      backlash: { mean_mm: 0.216, min_mm: 0.203, max_mm: 0.229, U95_mm: 0.02 },
      pattern: { drive, coast },
      looked,
    },
  ],
});

it('asks to look where one flank fell and the other rose: no depth of the pinion does that', () => {
  const crossed = painted(mark(-0.25, -0.24, { toe: 'feathered' }), mark(0.2, 0.12));
  expect(valueOf(plan(crossed))).toMatchObject({ decision: 'check', pinionOut_mm: 0, ringAway_mm: 0 });
});

it('never says that a mark lies where it ran which was read far below', () => {
  const low = valueOf(plan(painted(mark(0, -0.24), mark(0.2, -0.05))));
  expect(low.decision).toBe('check');
  expect(low.reasons.join(' ')).not.toContain('where this set ran before');
});

it('goes on once somebody looked and found it as told, and where both fell together', () => {
  const both = valueOf(plan(painted(mark(0, -0.24), mark(0.2, -0.25))));
  expect(both.decision).toBe('change');
  expect(both.pinionOut_mm).toBeGreaterThan(0);
  expect(valueOf(plan(painted(mark(0, -0.24), mark(0.2, -0.05), true))).decision).not.toBe('check');
});
