import type { Mark } from '../../../src/shared/axle/mark/mark.ts';
import { type PlanInput, planInputSchema } from '../../../src/shared/axle/plan/input.ts';

const edges = (hard: Partial<Mark['edges']> = {}): Mark['edges'] => ({
  toe: 'clear',
  heel: 'clear',
  crown: 'clear',
  root: 'clear',
  ...hard,
});
const mark = (heel: number, crown: number, more: Partial<Mark> = {}): Mark => ({
  heel,
  crown,
  length: 0.5,
  height: 0.5,
  slant_deg: 0,
  edges: edges(),
  U95: { heel: 0.08, crown: 0.08 },
  ...more,
});

/** Drive marks as they are met, with a coast mark at the same height unless it is what the row is about. */
const marks: Readonly<Record<string, { readonly drive: Mark; readonly coast?: Mark }>> = {
  centred: { drive: mark(-0.05, 0) },
  'low, clear': { drive: mark(-0.05, -0.18) },
  'high, clear': { drive: mark(-0.05, 0.18) },
  'low and toe, hard': { drive: mark(-0.25, -0.26, { height: 0.48, edges: edges({ toe: 'hard', root: 'hard' }) }) },
  'high and heel, hard': { drive: mark(0.27, 0.28, { height: 0.44, edges: edges({ heel: 'hard', crown: 'hard' }) }) },
  'heel, hard': { drive: mark(0.3, 0, { length: 0.4, edges: edges({ heel: 'hard' }) }) },
  'toe, hard': { drive: mark(-0.3, 0, { length: 0.4, edges: edges({ toe: 'hard' }) }) },
  'heel, feathered': { drive: mark(0.24, 0, { edges: edges({ heel: 'feathered' }) }) },
  'crossed: drive heel, coast toe': {
    drive: mark(0.3, 0, { length: 0.4, edges: edges({ heel: 'hard' }) }),
    coast: mark(-0.3, 0, { length: 0.4, edges: edges({ toe: 'hard' }) }),
  },
  'drive high, coast low': { drive: mark(0, 0.2), coast: mark(0, -0.2) },
  'coast hard at the root': {
    drive: mark(-0.05, 0),
    coast: mark(0, -0.3, { height: 0.4, edges: edges({ root: 'hard' }) }),
  },
  'edge to edge': {
    drive: mark(0, 0, {
      length: 1,
      height: 1,
      edges: edges({ toe: 'feathered', heel: 'feathered', crown: 'feathered', root: 'feathered' }),
    }),
  },
  'toe to heel': { drive: mark(0, 0, { length: 1, edges: edges({ toe: 'feathered', heel: 'feathered' }) }) },
  dot: { drive: mark(0, 0, { length: 0.1, height: 0.12 }) },
  line: { drive: mark(0, 0, { length: 0.7, height: 0.08 }) },
};

const backlashes: Readonly<Record<string, number>> = { low: 0.14, middle: 0.25, high: 0.36, binds: 0 };
const cuts = ['face-milled', 'face-hobbed', 'not-known'] as const;
const flanks = ['convex', 'concave'] as const;
/** A used set ran high and a little to the heel. */
const ran = mark(0.1, 0.15);

/** A kind of mark on a kind of set, as a plan is asked for it. */
export interface Row {
  readonly what: string;
  readonly input: PlanInput;
}

export function matrixRows(): readonly Row[] {
  return (['new', 'used'] as const).flatMap((kind) =>
    cuts.flatMap((cut) =>
      flanks.flatMap((driveFlank) =>
        Object.entries(marks).flatMap(([name, { drive, coast }]) =>
          // The backlash is varied where the mark says nothing is wrong; elsewhere it stands in the middle.
          Object.entries(backlashes)
            .filter(([where]) => where === 'middle' || name === 'centred')
            .map(([where, mean_mm]) => ({
              what: `${kind}, ${cut}, drive ${driveFlank}: ${name}, backlash ${where}`,
              input: asked({ kind, cut, driveFlank, mean_mm, drive, coast: coast ?? mark(0, drive.crown) }),
            })),
        ),
      ),
    ),
  );
}

function asked(from: {
  readonly kind: 'new' | 'used';
  readonly cut: (typeof cuts)[number];
  readonly driveFlank: (typeof flanks)[number];
  readonly mean_mm: number;
  readonly drive: Mark;
  readonly coast: Mark;
}): PlanInput {
  const { kind, cut, driveFlank, mean_mm, drive, coast } = from;
  const own = { kind: 'used-set', drive: ran, coast: mark(0.05, 0.12), backlash_mm: 0.26 };
  return planInputSchema.parse({
    set: {
      pinionTeeth: 11,
      ringTeeth: 41,
      outerDiameter_mm: 220,
      faceWidth_mm: 33,
      offset_mm: 32,
      pinionSpiral_deg: 47,
      cut,
      driveFlank,
    },
    backlashBasis: { direction: 'along-rotation', at: 'heel' },
    limits: { backlash_mm: [0.2, 0.3] },
    target: kind === 'new' ? { kind: 'new-set' } : own,
    shimStep_mm: { pinion: 0.025, side: 0.025 },
    trials: [
      {
        pinionOut_mm: 0,
        ringAway_mm: 0,
        backlash: {
          mean_mm,
          min_mm: Math.max(0, mean_mm - 0.01),
          max_mm: mean_mm + (mean_mm > 0 ? 0.01 : 0),
          U95_mm: 0.012,
        },
        pattern: { drive, coast },
      },
    ],
  });
}
