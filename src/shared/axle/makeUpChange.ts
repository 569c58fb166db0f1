import type { MakeUp } from './makeUp.ts';

/** What readings and cards already rest on: changed, it means something else by the same numbers. */
const decides = {
  pinionTeeth: 'the teeth of the pinion',
  ringTeeth: 'the teeth of the ring gear',
  gearSet: 'whether the set is new',
  driveFlank: 'the flank that drives',
  caseAdjustment: 'how the case is moved sideways',
  pinionMount: 'how the pinion is carried',
  pinionPreload: 'what sets the pinion preload',
  depthShimPlace: 'where the depth shim sits',
} as const satisfies Partial<Record<keyof MakeUp, string>>;

/** What a changed description turns round, in words, in the order of the axle screen; nothing where readings keep their meaning. */
export function turnedRound(before: MakeUp | undefined, after: MakeUp): readonly string[] {
  if (before === undefined) return [];
  const fields = Object.keys(decides) as (keyof typeof decides)[];
  return fields.filter((field) => before[field] !== after[field]).map((field) => decides[field]);
}
