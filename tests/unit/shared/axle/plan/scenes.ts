import type { EaseOff } from '../../../../../src/shared/axle/mesh/easeoff.ts';
import { evaluate } from '../../../../../src/shared/axle/mesh/evaluate.ts';
import { describeSet } from '../../../../../src/shared/axle/mesh/meshModel.ts';
import type { Mark } from '../../../../../src/shared/axle/mark/mark.ts';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import type { Expected, PlanAnswer } from '../../../../../src/shared/axle/plan/answer.ts';
import type { PlanInput, TrialSeen } from '../../../../../src/shared/axle/plan/input.ts';
import { plan } from '../../../../../src/shared/axle/plan/plan.ts';

type Cut = 'face-milled' | 'face-hobbed';

/** A hypoid set of our own with round dimensions. */
export const setWith = (cut: Cut | 'not-known', driveFlank: 'convex' | 'concave' = 'convex') => ({
  pinionTeeth: 11,
  ringTeeth: 41,
  outerDiameter_mm: 220,
  faceWidth_mm: 32,
  offset_mm: 30,
  pinionSpiral_deg: 46,
  cut,
  driveFlank,
});

export const edges = (change: Partial<Mark['edges']> = {}): Mark['edges'] => ({
  toe: 'clear',
  heel: 'clear',
  crown: 'clear',
  root: 'clear',
  ...change,
});

/** A mark as it would be read, in its place and clear of every edge unless said. */
export const mark = (change: Partial<Mark> = {}): Mark => ({
  heel: -0.05,
  crown: 0,
  length: 0.5,
  height: 0.6,
  slant_deg: 0,
  edges: edges(),
  U95: { heel: 0.06, crown: 0.06 },
  ...change,
});

export const trial = (change: Partial<TrialSeen> = {}): TrialSeen => ({
  pinionOut_mm: 0,
  ringAway_mm: 0,
  backlash: { mean_mm: 0.25, min_mm: 0.24, max_mm: 0.26, U95_mm: 0.006 },
  pattern: { drive: mark(), coast: mark() },
  ...change,
});

export const asked = (change: Partial<PlanInput> = {}): PlanInput => ({
  set: setWith('face-milled'),
  backlashBasis: { direction: 'along-rotation', at: 'heel' },
  limits: { backlash_mm: [0.2, 0.3] },
  target: { kind: 'new-set' },
  shimStep_mm: { pinion: 0.02, side: 0.02 },
  trials: [trial()],
  ...change,
});

export function planned(input: PlanInput): PlanAnswer {
  const answer = plan(input);
  if (!answer.ok) throw new Error(answer.problem.sentence);
  return answer.value;
}

/** What a plan promises; a plan that promises nothing fails the test. */
export function promised({ expected }: PlanAnswer): Expected {
  if (isNone(expected)) throw new Error(`nothing is promised: ${expected.none}`);
  return expected;
}

/** An axle made of the full mesh model itself, so that plans can be followed without the twin. */
export interface ModelAxle {
  readonly cut: Cut;
  readonly driveFlank: 'convex' | 'concave';
  readonly film_mm: number;
  readonly start: { readonly pinionOut: number; readonly ringAway: number };
}

const relief: EaseOff = { a: 3.5e-4, b: 0, c: 2.5e-3 };

/** What a trial of that axle would show, read without error. */
export function shown(axle: ModelAxle, pinionOut: number, ringAway: number): TrialSeen {
  const { driveFlank, ...set } = setWith(axle.cut, axle.driveFlank);
  const described = describeSet(set);
  if (!described.ok) throw new Error(described.problem.sentence);
  const { backlash, marks } = evaluate(
    described.value,
    { pinionOut: mm(axle.start.pinionOut + pinionOut), ringAway: mm(axle.start.ringAway + ringAway) },
    { film: mm(axle.film_mm), easeoff: { convex: relief, concave: relief } },
  );
  const mean = Math.max(0.02, 0.25 + backlash.transverseHeel);
  const U95 = { heel: 0.06, crown: 0.06 };
  return {
    pinionOut_mm: pinionOut,
    ringAway_mm: ringAway,
    backlash: { mean_mm: mean, min_mm: mean - 0.01, max_mm: mean + 0.01, U95_mm: 0.006 },
    pattern: {
      drive: { ...marks[driveFlank], U95 },
      coast: { ...marks[driveFlank === 'convex' ? 'concave' : 'convex'], U95 },
    },
  };
}
