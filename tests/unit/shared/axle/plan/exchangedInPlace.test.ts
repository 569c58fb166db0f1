import { expect, it } from 'vitest';
import type { Mark } from '../../../../../src/shared/axle/mark/mark.ts';
import type { PlanInput } from '../../../../../src/shared/axle/plan/input.ts';
import { plan } from '../../../../../src/shared/axle/plan/plan.ts';
import { valueOf } from '../../../../support/bench/open.ts';

const mark = (heel: number, crown: number, length: number, height: number): Mark => ({
  heel,
  crown,
  length,
  height,
  slant_deg: 0,
  edges: { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' },
  U95: { heel: 0.08, crown: 0.08 },
});

/** A first-order axle (seed 720013) on which nobody erred: after its first change it is right, and its flanks answered oddly. */
const after = (drive: Mark, coast: Mark): PlanInput => ({
  set: {
    pinionTeeth: 13,
    ringTeeth: 45,
    outerDiameter_mm: 205,
    faceWidth_mm: 30,
    cut: 'face-milled',
    driveFlank: 'convex',
  },
  backlashBasis: { direction: 'along-rotation', at: 'heel' },
  limits: { backlash_mm: [0.15, 0.25] },
  target: { kind: 'new-set' },
  shimStep_mm: { pinion: 0.025, side: 0.025 },
  trials: [
    {
      pinionOut_mm: 0,
      ringAway_mm: 0,
      backlash: { mean_mm: 0.256, min_mm: 0.246, max_mm: 0.265, U95_mm: 0.006 },
      pattern: { drive: mark(0, 0.19, 0.29, 0.53), coast: mark(0.01, 0.08, 0.36, 0.61) },
    },
    {
      pinionOut_mm: -0.1,
      ringAway_mm: -0.025,
      backlash: { mean_mm: 0.169, min_mm: 0.159, max_mm: 0.179, U95_mm: 0.006 },
      pattern: { drive, coast },
    },
  ],
});

it('sends nobody to look which flank is which where both marks lie where they belong', () => {
  const inPlace = valueOf(plan(after(mark(0.09, -0.08, 0.38, 0.57), mark(-0.02, -0.09, 0.3, 0.45))));
  expect(inPlace.decision).not.toBe('check');
});

it('still does where one of them lies elsewhere', () => {
  const low = valueOf(plan(after(mark(0.09, -0.2, 0.38, 0.57), mark(-0.02, -0.09, 0.3, 0.45))));
  expect(low.decision).toBe('check');
  expect(low.reasons.join(' ')).toContain('drive and coast exchanged');
});
