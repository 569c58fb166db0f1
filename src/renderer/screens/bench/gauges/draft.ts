import type { z } from 'zod';
import { type Gauge, gaugeSchema } from '../../../../shared/job/records/gauge.ts';
import { unitNamed } from '../../../../shared/basics/units.ts';
import { type DraftRead, type FieldErrors, readBy, wrong } from '../../../parts/draft.ts';
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

export type GaugeErrors = FieldErrors<Exclude<keyof GaugeDraft, 'link'>> & { readonly link?: LinkErrors };

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
    unit: link.sort === 'keyboard' ? empty.unit : '',
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
type GaugeToSave = z.infer<typeof newGaugeSchema>;

/** Registers hold a bare number and most keyboard gauges type one, so the unit is asked; that of the gauge's steps is the likeliest. */
export function overLink(link: LinkDraft, draft: GaugeDraft): Partial<GaugeDraft> {
  const begins = link.sort === 'keyboard' && draft.link.sort !== 'keyboard';
  return draft.unit === '' && (link.sort === 'modbus' || begins) ? { link, unit: draft.resolution.unit } : { link };
}

const again = 'Look at this again.';
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
  id: again,
  kind: again,
  serial: again,
  format: again,
} as const;

/** The record a draft stands for, or a sentence for each field that is wrong. */
export function readGauge(draft: GaugeDraft): DraftRead<GaugeToSave, GaugeErrors> {
  const measure = measureOfKind(draft.kind, draft.resolution.unit);
  const parts = [
    ...(['resolution', 'statedError', 'hysteresis'] as const).map((field) => quantityPart(draft, field, measure)),
    linkPart(draft),
    ...(measure === 'force' ? [armPart(draft)] : []),
  ];
  const read = readBy(
    newGaugeSchema,
    Object.assign(plainFields(draft), ...parts.map((part) => part.fields)),
    sentences,
  );
  const errors: GaugeErrors = Object.assign({}, read.ok ? {} : read.errors, ...parts.map((part) => part.errors));
  return read.ok && Object.keys(errors).length === 0 ? read : wrong(errors);
}

/** What some fields of a draft add to the record, and what is wrong in them. */
interface RecordPart {
  readonly fields: Partial<Gauge>;
  readonly errors: GaugeErrors;
}

/** What needs no reading: words, and a percentage. */
function plainFields(draft: GaugeDraft): Partial<Gauge> {
  const words = (field: 'serial' | 'calibratedOn' | 'dueOn' | 'unit') =>
    draft[field].trim() === '' ? {} : { [field]: draft[field].trim() };
  const percent = draft.statedError_percent.trim().replace(',', '.');
  return {
    ...(draft.id === undefined ? {} : { id: draft.id }),
    label: draft.label,
    kind: draft.kind,
    ...(percent === '' ? {} : { statedError_percent: Number(percent) }),
    ...words('serial'),
    ...words('calibratedOn'),
    ...words('dueOn'),
    ...words('unit'),
    ...(draft.format === undefined ? {} : { format: draft.format }),
  };
}

/** A quantity above zero; only the resolution has to be there. */
function quantityPart(
  draft: GaugeDraft,
  field: 'resolution' | 'statedError' | 'hysteresis',
  measure: Measure,
): RecordPart {
  if (draft[field].text.trim() === '' && field !== 'resolution') return { fields: {}, errors: {} };
  const read = readDraft(draft[field], measure, field);
  if (read.ok && read.value.value > 0) return { fields: { [field]: read.value }, errors: {} };
  return { fields: {}, errors: { [field]: sentences[field] } };
}

/** The link as text, or what is wrong in its fields. */
function linkPart({ kind, link, unit }: GaugeDraft): RecordPart {
  if (kind === 'typed') return { fields: {}, errors: {} };
  const noUnit = link.sort === 'modbus' && unit === '' ? { unit: sentences.unit } : {};
  const read = readLinkDraft(link);
  if (!read.ok) return { fields: {}, errors: { ...noUnit, link: read.errors } };
  return { fields: read.value === '' ? {} : { link: read.value }, errors: noUnit };
}

/** Without its arm a pull scale measures no torque, so it is asked for; how well it is known may stay open. */
function armPart(draft: GaugeDraft): RecordPart {
  const read = (field: 'arm' | 'armWithin') => {
    const typed = readDraft(draft[field], 'length', field);
    return typed.ok && typed.value.value > 0 ? typed.value : undefined;
  };
  const open = draft.armWithin.text.trim() === '';
  const [length, within] = [read('arm'), open ? undefined : read('armWithin')];
  const errors = {
    ...(length === undefined ? { arm: sentences.arm } : {}),
    ...(open || within !== undefined ? {} : { armWithin: sentences.armWithin }),
  };
  if (length === undefined) return { fields: {}, errors };
  return { fields: { arm: { length, ...(within === undefined ? {} : { within }) } }, errors };
}
