import { type Gauge, gaugeSchema } from '../../../../shared/job/records/gauge.ts';
import { unitNamed } from '../../../../shared/basics/units.ts';
import { fail, ok, type Result } from '../../../../shared/basics/result.ts';
import { draftOf, emptyDraft, type Measure, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { type LinkDraft, linkDraftOf, type LinkErrors, readLinkDraft } from './linkDraft.ts';

/** A gauge's record while it is being typed. */
export interface GaugeDraft {
  readonly id: string | undefined;
  readonly label: string;
  readonly kind: Gauge['kind'];
  readonly serial: string;
  readonly resolution: QuantityDraft;
  readonly statedError: QuantityDraft;
  readonly statedError_percent: string;
  readonly hysteresis: QuantityDraft;
  /** Of a pull scale. */
  readonly arm: QuantityDraft;
  readonly armWithin: QuantityDraft;
  readonly calibratedOn: string;
  readonly dueOn: string;
  readonly link: LinkDraft;
  readonly unit: string;
  readonly format: Gauge['format'];
}

export type GaugeErrors = Partial<Record<Exclude<keyof GaugeDraft, 'link'>, string>> & { link?: LinkErrors };

/** A tool that is only read off can be a length or a torque tool; its resolution says which. */
export const measureOfKind = (kind: Gauge['kind'], unit = 'mm'): Measure => {
  const dimension = unitNamed(unit)?.dimension;
  if (dimension === 'force') return 'force';
  return kind === 'torque' || dimension === 'torque' ? 'torque' : 'length';
};

/** A torque gauge reads a torque, a pull scale a force: what was typed in the other's units is let go. */
export const reading = (measure: 'torque' | 'force', units: 'metric' | 'inch'): Partial<GaugeDraft> => {
  const empty = emptyDraft(measure, units);
  return { resolution: empty, statedError: empty, unit: '' };
};

export const blankGauge = (kind: Gauge['kind'], link: LinkDraft, units: 'metric' | 'inch'): GaugeDraft => {
  const empty = emptyDraft(measureOfKind(kind), units);
  return {
    id: undefined,
    label: '',
    kind,
    serial: '',
    resolution: empty,
    statedError: empty,
    statedError_percent: '',
    hysteresis: empty,
    arm: emptyDraft('length', units),
    armWithin: emptyDraft('length', units),
    calibratedOn: '',
    dueOn: '',
    link,
    unit: '',
    format: undefined,
  };
};

/** Another kind measures in other units: what was typed in the old ones is let go. */
export const ofKind = (kind: Gauge['kind'], units: 'metric' | 'inch'): Partial<GaugeDraft> => {
  const { resolution, statedError, hysteresis } = blankGauge(kind, linkDraftOf(''), units);
  return { kind, resolution, statedError, hysteresis, statedError_percent: '', unit: '' };
};

export function gaugeDraftOf(gauge: Gauge): GaugeDraft {
  const empty = { text: '', unit: gauge.resolution.unit };
  return {
    id: gauge.id,
    label: gauge.label,
    kind: gauge.kind,
    serial: gauge.serial ?? '',
    resolution: draftOf(gauge.resolution),
    statedError: gauge.statedError === undefined ? empty : draftOf(gauge.statedError),
    statedError_percent: gauge.statedError_percent === undefined ? '' : String(gauge.statedError_percent),
    hysteresis: gauge.hysteresis === undefined ? empty : draftOf(gauge.hysteresis),
    arm: gauge.arm === undefined ? { text: '', unit: 'mm' } : draftOf(gauge.arm.length),
    armWithin: gauge.arm?.within === undefined ? { text: '', unit: 'mm' } : draftOf(gauge.arm.within),
    calibratedOn: gauge.calibratedOn ?? '',
    dueOn: gauge.dueOn ?? '',
    link: linkDraftOf(gauge.link ?? ''),
    unit: gauge.unit ?? '',
    format: gauge.format,
  };
}

const newGaugeSchema = gaugeSchema.partial({ id: true });
type GaugeToSave = Omit<Gauge, 'id'> & Partial<Pick<Gauge, 'id'>>;

/** Registers hold a bare number, so the unit has to be said; the one the gauge's steps are given in is the likeliest. */
export const overLink = (link: LinkDraft, draft: GaugeDraft): Partial<GaugeDraft> =>
  link.sort === 'modbus' && draft.unit === '' ? { link, unit: draft.resolution.unit } : { link };

const sentences = {
  label: 'Give the gauge the name it has in the shop.',
  resolution: 'The smallest step it shows, with its unit.',
  statedError: 'The maker’s largest error, with its unit, or nothing.',
  statedError_percent: 'A percentage above 0 and up to 50, or nothing.',
  hysteresis: 'A length or torque with its unit, or nothing.',
  arm: 'From the axis to the middle of the cord, with its unit.',
  armWithin: 'A length with its unit, or nothing.',
  calibratedOn: 'A day, or nothing.',
  dueOn: 'A day, or nothing.',
  unit: 'Registers carry no unit: choose the one the gauge is set to.',
} as const satisfies GaugeErrors;
const sentenceFor = (field: string): string => Object.entries(sentences).find(([name]) => name === field)?.[1] ?? again;
const again = 'Look at this again.';

/** The record a draft stands for, or a sentence for each field that is wrong. */
export function readGauge(draft: GaugeDraft): Result<GaugeToSave> & { readonly errors?: GaugeErrors } {
  const errors: GaugeErrors = {};
  const measure = measureOfKind(draft.kind, draft.resolution.unit);
  const quantity = (field: 'resolution' | 'statedError' | 'hysteresis') => {
    if (draft[field].text.trim() === '' && field !== 'resolution') return {};
    const read = readDraft(draft[field], measure, field);
    if (read.ok && read.value.value > 0) return { [field]: read.value };
    errors[field] = sentences[field];
    return {};
  };
  const words = (field: 'serial' | 'calibratedOn' | 'dueOn' | 'unit') =>
    draft[field].trim() === '' ? {} : { [field]: draft[field].trim() };
  const link = draft.kind === 'typed' ? {} : readLink(draft, errors);
  const arm = measure === 'force' ? readArm(draft, errors) : {};
  const percent =
    draft.statedError_percent.trim() === ''
      ? {}
      : { statedError_percent: Number(draft.statedError_percent.replace(',', '.')) };
  const checked = newGaugeSchema.safeParse({
    ...(draft.id === undefined ? {} : { id: draft.id }),
    label: draft.label,
    kind: draft.kind,
    ...quantity('resolution'),
    ...quantity('statedError'),
    ...quantity('hysteresis'),
    ...arm,
    ...percent,
    ...words('serial'),
    ...words('calibratedOn'),
    ...words('dueOn'),
    ...link,
    ...words('unit'),
    ...(draft.format === undefined ? {} : { format: draft.format }),
  });
  if (checked.success && Object.keys(errors).length === 0) return ok(checked.data as GaugeToSave);
  for (const issue of checked.error?.issues ?? []) {
    const field = String(issue.path[0]) as keyof GaugeDraft;
    if (field === 'link') errors.link ??= { link: issue.message };
    else errors[field] ??= sentenceFor(field);
  }
  const problem = { kind: 'fields', sentence: 'Some fields need another look.', remedy: 'They are marked.' };
  return { ...fail(problem), errors };
}

/** The link as text, or what is wrong in its fields. */
function readLink(draft: GaugeDraft, errors: GaugeErrors): Pick<Gauge, 'link'> {
  if (draft.link.sort === 'modbus' && draft.unit === '') errors.unit = sentences.unit;
  const read = readLinkDraft(draft.link);
  if (!read.ok) errors.link = read.errors;
  return read.ok && read.text !== '' ? { link: read.text } : {};
}

/** Without its arm a pull scale measures no torque, so it is asked for; how well it is known may stay open. */
function readArm(draft: GaugeDraft, errors: GaugeErrors): Pick<Gauge, 'arm'> {
  const read = (field: 'arm' | 'armWithin') => {
    if (field === 'armWithin' && draft.armWithin.text.trim() === '') return undefined;
    const typed = readDraft(draft[field], 'length', field);
    if (typed.ok && typed.value.value > 0) return typed.value;
    errors[field] = sentences[field];
    return undefined;
  };
  const [length, within] = [read('arm'), read('armWithin')];
  return length === undefined ? {} : { arm: { length, ...(within === undefined ? {} : { within }) } };
}
