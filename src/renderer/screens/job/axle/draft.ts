import { parseQuantity } from '../../../../shared/basics/parse.ts';
import { fromInside, units } from '../../../../shared/basics/units.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { type MakeUp, makeUpSchema } from '../../../../shared/axle/makeUp.ts';
import { possible } from '../../../../shared/axle/makeUpDoubts.ts';
import { type DraftRead, type FieldErrors, readBy, wrong } from '../../../parts/draft.ts';

/** The description of an axle while it is being filled in: numbers as typed, choices open until made. */
export type AxleDraft = { readonly [Field in keyof Required<MakeUp>]: string | undefined };

/** Fields that are typed as lengths, in the unit of the session or with a unit of their own. */
const lengthFields = [
  'outerDiameter_mm',
  'faceWidth_mm',
  'offset_mm',
  'pinionStep_mm',
  'ringStep_mm',
  'threadPitch_mm',
] as const;
const plainFields = [
  'pinionTeeth',
  'ringTeeth',
  'ringBolts',
  'pinionSpiral_deg',
  'pressureAngle_deg',
  'notchesPerTurn',
] as const;
export type LengthField = (typeof lengthFields)[number];
const textFields = ['axleName', 'gearMaker'] as const;
export type TextField = (typeof textFields)[number];
export type PlainField = (typeof plainFields)[number];
const needed: ReadonlySet<string> = new Set(['pinionTeeth', 'ringTeeth']);

const emptyNumbers = Object.fromEntries([...lengthFields, ...plainFields].map((field) => [field, ''])) as Record<
  LengthField | PlainField,
  string
>;

/** What is most often so is chosen already where a wrong guess shows at once; the rest is asked. */
export const blankAxle: AxleDraft = {
  ...emptyNumbers,
  axleName: '',
  gearMaker: '',
  gearSet: undefined,
  cut: 'not-known',
  driveFlank: undefined,
  caseAdjustment: undefined,
  pinionMount: undefined,
  pinionPreload: undefined,
  depthShimPlace: undefined,
  trialBearings: 'set-up',
  differential: undefined,
  shaftsHeldBy: undefined,
};

const lengthUnit = (system: UnitSystem) => (system === 'metric' ? units.mm : units.in);

export function axleDraftOf(makeUp: MakeUp, system: UnitSystem): AxleDraft {
  const length = (value: number): string => String(Number(fromInside(value, lengthUnit(system)).toFixed(6)));
  const shown = (field: LengthField | PlainField): string => {
    const value = makeUp[field];
    if (value === undefined) return '';
    return (lengthFields as readonly string[]).includes(field) ? length(value) : String(value);
  };
  const numbers = Object.fromEntries([...lengthFields, ...plainFields].map((field) => [field, shown(field)]));
  const texts = { axleName: makeUp.axleName ?? '', gearMaker: makeUp.gearMaker ?? '' };
  const { differential, shaftsHeldBy } = makeUp;
  const choices = { differential, shaftsHeldBy };
  return { ...makeUp, ...texts, ...choices, ...(numbers as Record<LengthField | PlainField, string>) };
}

export type AxleErrors = FieldErrors<keyof AxleDraft>;

const sentences: Readonly<Record<keyof AxleDraft, string>> = {
  pinionTeeth: 'Count the pinion’s teeth: 3 to 60.',
  ringTeeth: 'Count the ring gear’s teeth: 10 to 200.',
  outerDiameter_mm: 'A diameter, or nothing.',
  ringBolts: 'Count the ring gear’s bolts: 4 to 40, or nothing.',
  faceWidth_mm: 'A width, or nothing.',
  offset_mm: 'A distance from 0 up, or nothing.',
  pinionSpiral_deg: 'Degrees from 0 to 65, or nothing.',
  pressureAngle_deg: 'Degrees from 10 to 30, or nothing.',
  pinionStep_mm: 'A step of at most 1 mm, or nothing.',
  ringStep_mm: 'A step of at most 1 mm, or nothing.',
  threadPitch_mm: 'From 0.5 to 6 mm a turn, or nothing.',
  notchesPerTurn: 'Count the notches once round: 4 to 120, or nothing.',
  gearSet: 'New or used decides what the mark is held against.',
  cut: 'Choose one; not known is an answer.',
  driveFlank: 'Choose by where the axle sits: a wrong flank turns the place along the face round.',
  caseAdjustment: 'Choose how the case is moved sideways.',
  pinionMount: 'Choose how the pinion is carried.',
  pinionPreload: 'Choose what sets the pinion preload.',
  depthShimPlace: 'The place of the shim decides which way it moves the pinion.',
  trialBearings: 'Choose the bearings of the trials.',
  axleName: 'A name of up to 200 letters, or nothing.',
  gearMaker: 'A name of up to 200 letters, or nothing.',
  differential: 'Choose what it is, or leave it.',
  shaftsHeldBy: 'Choose what holds the shafts, or leave it.',
};

/** The make-up a draft stands for, or a sentence for each field that is not there yet. */
export function readAxle(draft: AxleDraft, system: UnitSystem): DraftRead<MakeUp, AxleErrors> {
  const numbers = [
    ...lengthFields.map((field) => [field, lengthOf(draft[field], system)] as const),
    ...plainFields.map((field) => [field, numberOf(draft[field])] as const),
  ];
  // What was left empty is nobody's knowledge, and stays out; only the tooth counts have to be there.
  const typed = numbers.filter(([field]) => needed.has(field) || (draft[field] ?? '').trim() !== '');
  // A choice that was not made, and a name that was left empty, stay out.
  const others = Object.entries(draft).filter(
    ([field, value]) => !numbers.some(([number]) => number === field) && (value ?? '').trim() !== '',
  );
  const read = readBy(makeUpSchema, Object.fromEntries([...others, ...typed]), sentences);
  if (!read.ok) return read;
  const checked = possible(read.value);
  if (checked.ok) return read;
  const { field = 'ringTeeth', sentence, remedy } = checked.problem;
  return wrong({ [field]: `${sentence} ${remedy}` });
}

const numberOf = (text: string | undefined): number =>
  text === undefined || text.trim() === '' ? Number.NaN : Number(text.replace(',', '.'));

/** A length in mm. A unit typed with the digits goes before that of the session. */
function lengthOf(text: string | undefined, system: UnitSystem): number {
  const typed = text ?? '';
  const withUnit = /[a-zµμ"]/iu.test(typed);
  const read = parseQuantity(withUnit ? typed : `${typed} ${lengthUnit(system).symbol}`, 'length', 'length');
  return read.ok ? read.value.value * read.value.unit.factor : Number.NaN;
}
