import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { insideOf, type QuantityTyped } from '../../../../shared/basics/recorded.ts';
import {
  type Limit,
  limitedQuantities,
  type LimitedQuantity,
  limitSchema,
} from '../../../../shared/job/records/specSheet.ts';
import { implausible } from '../../../../shared/job/checks/plausible.ts';
import { ok } from '../../../../shared/basics/result.ts';
import { type DraftRead, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { emptyDraft, type Measure, readDraft } from '../../../parts/quantity.ts';
import { backlashBasis, basisKey, isRadius, torqueBasis } from './basis.ts';

/** One limit while it is being typed. `key` tells rows apart, because one quantity can have several. */
export interface LimitDraft {
  readonly key: string;
  readonly quantity: LimitedQuantity;
  readonly min: string;
  readonly max: string;
  readonly unit: string;
  /** The chosen basis by its key (basis.ts); empty where none is needed or none is chosen. */
  readonly basis: string;
  readonly radius: string;
  readonly source: string;
}

export type LimitField = 'min' | 'max' | 'basis' | 'radius' | 'source';
export type LimitErrors = FieldErrors<LimitField>;

const fasteners: ReadonlySet<LimitedQuantity> = new Set(['cap-torque', 'ring-bolt-torque', 'pinion-nut-torque']);

/** In which units a quantity is usually written. */
export const measureOf = (quantity: LimitedQuantity): Measure => {
  if (limitedQuantities[quantity] === 'length') return 'length';
  return fasteners.has(quantity) ? 'fastener' : 'torque';
};

/** What kind of basis a quantity's limit has to name. */
export function basisOf(quantity: LimitedQuantity): 'backlash' | 'torque' | undefined {
  if (quantity === 'backlash' || quantity === 'backlash-variation') return 'backlash';
  return quantity === 'pinion-torque' || quantity === 'total-torque' ? 'torque' : undefined;
}

/**
 * The basis a line begins with, chosen in sight and changed with one tap: backlash as it is usually felt, torques in the
 * state in which makers usually give them (common practice). On set-up bearings nobody prints one.
 */
const usualBasis = { backlash: 'along-rotation heel', torque: 'running in new' } as const;

export const blankLimit = (quantity: LimitedQuantity, key: string, system: UnitSystem): LimitDraft => ({
  key,
  quantity,
  min: '',
  max: '',
  unit: emptyDraft(measureOf(quantity), system).unit,
  basis: usualBasisOf(quantity),
  radius: '',
  source: '',
});

function usualBasisOf(quantity: LimitedQuantity): string {
  const kind = basisOf(quantity);
  return kind === undefined ? '' : usualBasis[kind];
}

export function limitDraftOf(limit: Limit, key: string): LimitDraft {
  const unit = limit.min?.unit ?? limit.max?.unit ?? 'mm';
  const basis = 'basis' in limit ? limit.basis : undefined;
  const at = basis !== undefined && 'direction' in basis ? basis.at : 'heel';
  return {
    key,
    quantity: limit.quantity,
    min: limit.min === undefined ? '' : String(limit.min.value),
    max: limit.max === undefined ? '' : written(limit.max, unit),
    unit,
    basis: basis === undefined ? '' : basisKey(basis),
    radius: at === 'heel' ? '' : String(at.radius_mm),
    source: limit.source,
  };
}

/** An end whose unit is not the row's keeps it with its digits. */
const written = (typed: QuantityTyped, unit: string): string =>
  typed.unit === unit ? String(typed.value) : `${typed.value} ${typed.unit}`;

/** A row with neither end typed asks for nothing; its source alone is no limit. */
export const isBlank = (draft: LimitDraft): boolean => draft.min.trim() === '' && draft.max.trim() === '';

/** The limit a row stands for, or what is wrong with which of its fields. */
export function readLimit(draft: LimitDraft): DraftRead<Limit, LimitErrors> {
  const errors: { -readonly [Field in keyof LimitErrors]: LimitErrors[Field] } = {};
  const end = (field: 'min' | 'max'): Partial<Record<'min' | 'max', QuantityTyped>> => {
    const text = draft[field];
    if (text.trim() === '') return {};
    const read = readDraft({ text, unit: draft.unit }, measureOf(draft.quantity), field === 'min' ? 'Lower' : 'Upper');
    const doubt = read.ok ? implausible(draft.quantity, insideOf(read.value)) : undefined;
    if (doubt !== undefined) errors[field] = `${doubt.sentence} ${doubt.remedy}`;
    if (read.ok) return { [field]: read.value };
    errors[field] = `${read.problem.sentence} ${read.problem.remedy}`;
    return {};
  };
  const ends = { ...end('min'), ...end('max') };
  if (Object.keys(errors).length > 0) return wrong(errors);
  const basis = readBasis(draft);
  if (!basis.ok) return basis;
  const checked = limitSchema.safeParse({ quantity: draft.quantity, ...ends, ...basis.value, source: draft.source });
  if (checked.success) return ok(checked.data);
  const found = checked.error.issues.map((issue) => [String(issue.path[0]), `${capital(issue.message)}.`] as const);
  return wrong(Object.fromEntries(found));
}

function readBasis(draft: LimitDraft): DraftRead<{ readonly basis?: object }, LimitErrors> {
  const kind = basisOf(draft.quantity);
  if (kind === undefined) return ok({});
  if (draft.basis === '') {
    const how = kind === 'backlash' ? 'Say how and where it is felt.' : 'Say in which state it is read.';
    return wrong({ basis: how });
  }
  if (kind === 'torque') return ok({ basis: { ...torqueBasis(draft.basis) } });
  const radius = Number(draft.radius.replace(',', '.'));
  if (isRadius(draft.basis) && !(radius > 0)) return wrong({ radius: 'A radius in mm.' });
  return ok({ basis: { ...backlashBasis(draft.basis, radius) } });
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
