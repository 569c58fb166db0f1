import type { Mark } from '../../../src/shared/axle/mark/mark.ts';
import type { MakeUp } from '../../../src/shared/axle/makeUp.ts';
import type { MarkResult, ShimPack } from '../../../src/shared/job/records/measurement.ts';
import type { Deed, DeedOf } from '../../../src/shared/job/records/notebook.ts';
import { backlash, byHand, makeUp, measured } from './scenario.ts';

/** Deeds of trials that have what a plan needs. Invented, like every figure in this folder. */
const mm = (value: number) => ({ value, unit: 'mm' });

export const withMakeUp = (change: Partial<MakeUp>): Deed => ({
  kind: 'described',
  makeUp: { ...makeUp, offset_mm: 30, faceWidth_mm: 32, pinionSpiral_deg: 46, ...change },
});

export const packs = (depth: number, ring: number, other: number): readonly ShimPack[] => [
  { place: 'pinion-depth', each: [mm(depth)], pack: mm(depth) },
  { place: 'ring-side', each: [mm(ring)], pack: mm(ring) },
  { place: 'opposite-side', each: [mm(other)], pack: mm(other) },
];

const clear = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;
export const markAt = (heel: number, crown: number, edges: Partial<Mark['edges']> = {}): Mark => ({
  heel,
  crown,
  length: 0.5,
  height: 0.6,
  slant_deg: 0,
  edges: { ...clear, ...edges },
  U95: { heel: 0.06, crown: 0.06 },
});

export const marks = (drive: Mark, coast: Mark, judgement: MarkResult['judgement'] = 'change'): MarkResult => ({
  kind: 'mark',
  drive,
  coast,
  judgement,
});

/** The case everyone meets: the drive mark hard at the root and at the toe. */
export const lowAndToe = marks(
  markAt(-0.3, -0.26, { toe: 'hard', root: 'hard' }),
  markAt(0.05, -0.2, { root: 'feathered' }),
);
export const right = marks(markAt(-0.06, 0.01), markAt(-0.05, 0.02));

export const shimsOf = (assembly: string, of: readonly ShimPack[]): Deed =>
  measured(assembly, 'shims', { kind: 'shims', packs: [...of] }, byHand);
export const backlashOf = (assembly: string, mean: number): Deed =>
  measured(assembly, 'backlash', backlash([mean - 0.01, mean, mean + 0.01, mean]));
export const markOf = (assembly: string, result: MarkResult): Deed => measured(assembly, 'mark', result);

export const expectedAt = (mean: number): DeedOf<'swap-planned'>['swap']['expected'] => ({
  backlash: { mean_mm: mean, min_mm: mean - 0.01, max_mm: mean + 0.01, U95_mm: 0.02 },
  drive: { ...markAt(-0.05, 0), U95: { heel: 0.1, crown: 0.1 } },
  coast: { ...markAt(-0.05, 0), U95: { heel: 0.1, crown: 0.1 } },
  lengthwise: true,
});
