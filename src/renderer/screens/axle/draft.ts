import { type MakeUp, makeUpSchema } from '../../../shared/records/makeUp.ts';

/** The description of an axle while it is being filled in: numbers as typed, choices open until made. */
export type AxleDraft = { readonly [Field in keyof Required<MakeUp>]: string | undefined };

/** What is most often so is chosen already where a wrong guess shows at once; the rest is asked. */
export const blankAxle: AxleDraft = {
  pinionTeeth: '',
  ringTeeth: '',
  outerDiameter_mm: '',
  ringBolts: '',
  gearSet: undefined,
  cut: 'not-known',
  driveFlank: 'convex',
  caseAdjustment: undefined,
  pinionMount: undefined,
  pinionPreload: undefined,
  depthShimPlace: undefined,
  trialBearings: 'set-up',
};

export const axleDraftOf = (makeUp: MakeUp): AxleDraft => ({
  ...makeUp,
  pinionTeeth: String(makeUp.pinionTeeth),
  ringTeeth: String(makeUp.ringTeeth),
  outerDiameter_mm: makeUp.outerDiameter_mm === undefined ? '' : String(makeUp.outerDiameter_mm),
  ringBolts: makeUp.ringBolts === undefined ? '' : String(makeUp.ringBolts),
});

export type AxleErrors = Partial<Record<keyof AxleDraft, string>>;

const sentences: AxleErrors = {
  pinionTeeth: 'Count the pinion’s teeth: 3 to 60.',
  ringTeeth: 'Count the ring gear’s teeth: 10 to 200.',
  outerDiameter_mm: 'A diameter in mm, or nothing.',
  ringBolts: 'Count the ring gear’s bolts: 4 to 40, or nothing.',
  gearSet: 'New or used decides what the mark is held against.',
  cut: 'Choose one; not known is an answer.',
  driveFlank: 'Choose the flank that pulls forward.',
  caseAdjustment: 'Choose how the case is moved sideways.',
  pinionMount: 'Choose how the pinion is carried.',
  pinionPreload: 'Choose what sets the pinion preload.',
  depthShimPlace: 'The place of the shim decides which way it moves the pinion.',
  trialBearings: 'Choose the bearings of the trials.',
};

/** The make-up a draft stands for, or a sentence for each field that is not there yet. */
export function readAxle(draft: AxleDraft): { readonly makeUp: MakeUp } | { readonly errors: AxleErrors } {
  const { outerDiameter_mm, ringBolts, ...rest } = draft;
  const diameter = outerDiameter_mm?.trim() === '' ? {} : { outerDiameter_mm: asNumber(outerDiameter_mm) };
  const bolts = ringBolts?.trim() === '' ? {} : { ringBolts: asNumber(ringBolts) };
  const read = makeUpSchema.safeParse({
    ...rest,
    ...diameter,
    ...bolts,
    pinionTeeth: asNumber(draft.pinionTeeth),
    ringTeeth: asNumber(draft.ringTeeth),
  });
  if (read.success) return { makeUp: read.data };
  const wrong = read.error.issues.map((issue) => String(issue.path[0]) as keyof AxleDraft);
  return { errors: Object.fromEntries(wrong.map((field) => [field, sentences[field] ?? 'Look at this again.'])) };
}

const asNumber = (text: string | undefined): number =>
  text === undefined || text.trim() === '' ? Number.NaN : Number(text.replace(',', '.'));
