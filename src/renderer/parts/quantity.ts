import { parseQuantity } from '../../shared/basics/parse.ts';
import type { UnitSystem } from '../../shared/basics/show.ts';
import { type Dimension, type Unit, unitNamed, units } from '../../shared/basics/units.ts';
import type { QuantityTyped } from '../../shared/basics/recorded.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Option } from './Choice.tsx';

/** What stands in a quantity's field: the digits as typed, and the UCUM code of the unit beside them. */
export interface QuantityDraft {
  readonly text: string;
  readonly unit: string;
}

/**
 * Fastener torques are large, rotating torques small: each gets the unit of its trade. A length off a dial is read with another
 * tool than a thickness.
 */
export type Measure = 'length' | 'dial' | 'torque' | 'fastener' | 'force';

const usual: Readonly<Record<Measure, Readonly<Record<UnitSystem, Unit>>>> = {
  length: { metric: units.mm, inch: units.in },
  dial: { metric: units.mm, inch: units.in },
  torque: { metric: units.Nm, inch: units.inLb },
  fastener: { metric: units.Nm, inch: units.ftLb },
  force: { metric: units.N, inch: units.lbf },
};

const offered: Readonly<Record<Dimension, readonly Unit[]>> = {
  length: [units.mm, units.in, units.um],
  torque: [units.Nm, units.Ncm, units.inLb, units.ftLb],
  force: [units.N, units.lbf, units.kgf],
  angle: [units.deg],
};

/** What a kind of reading is measured in, whatever it is read with. */
export function dimensionOf(measure: Measure): 'length' | 'torque' | 'force' {
  if (measure === 'dial') return 'length';
  return measure === 'fastener' ? 'torque' : measure;
}

export const emptyDraft = (measure: Measure, system: UnitSystem): QuantityDraft => ({
  text: '',
  unit: usual[measure][system].ucum,
});

export const draftOf = (typed: QuantityTyped): QuantityDraft => ({ text: String(typed.value), unit: typed.unit });

export const unitOptions = (measure: Measure): readonly Option<string>[] =>
  offered[dimensionOf(measure)].map((unit) => ({ value: unit.ucum, words: unit.symbol }));

/** The quantity a draft stands for. A unit typed with the digits goes before the one beside the field. */
export function readDraft(draft: QuantityDraft, measure: Measure, field: string): Result<QuantityTyped> {
  const dimension = dimensionOf(measure);
  if (draft.text.trim() === '') return fail(nothingTyped(field));
  const withUnit = /[a-zµμ"°[]/iu.test(draft.text.replace(/e[+-]?\d/iu, ''));
  const typed = parseQuantity(withUnit ? draft.text : `${draft.text} ${draft.unit}`, dimension, field);
  if (typed.ok) return ok({ value: typed.value.value, unit: typed.value.unit.ucum });
  // Only what was typed is said back: the unit beside the field is no mistake.
  const isNumber = Number.isFinite(Number(draft.text.trim().replace(',', '.').replace('−', '-')));
  return withUnit || isNumber ? typed : fail(noNumber(field, draft.text.trim()));
}

const nothingTyped = (field: string): Problem<'not-a-number'> => ({
  kind: 'not-a-number',
  field,
  sentence: `${capital(field)}: nothing is typed yet.`,
  remedy: 'Type a number.',
});

const noNumber = (field: string, text: string): Problem<'not-a-number'> => ({
  kind: 'not-a-number',
  field,
  sentence: `${capital(field)}: “${text}” is not a number.`,
  remedy: 'Type digits, with a point or a comma.',
});

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

export const symbolOf = (ucum: string): string => unitNamed(ucum)?.symbol ?? ucum;
