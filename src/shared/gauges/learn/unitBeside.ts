import type { LineFormat, Place } from '../lineFormat.ts';
import { unitNamed } from '../../basics/units.ts';
import { withoutFrame } from '../text.ts';
import { fieldsOf } from '../fields.ts';
import type { NumberColumn } from './columnsOfNumbers.ts';

/**
 * Where the unit of a number stands: glued to it, in the field after it, or in the field before it where no other number
 * stands before that. A unit farther away may be another number's: "0.00 Nm 40.1 deg".
 */
export function unitBesideNumber(texts: readonly string[], column: NumberColumn): LineFormat['unit'] {
  const { place } = column;
  const separator = place.at === 'field' ? place.separator : ' ';
  const lines = texts.map((text) => fieldsOf(text, separator).map(withoutFrame));
  const own = place.at === 'field' ? place.field - 1 : endingField(texts[0] ?? '', column);
  const every = (at: number, is: (field: string) => boolean): boolean => lines.every((line) => is(line[at] ?? ''));
  if (place.at === 'field' && every(own, hasUnit)) return { is: 'beside' };
  const isBehind = every(own + 1, isUnit);
  const isBefore = every(own - 1, isUnit) && !every(own - 2, isNumber);
  if (isBehind === isBefore) return { is: 'not-sent' };
  return placed(separator, isBehind ? own + 1 : own - 1);
}

/** The blank-separated field in which a number in columns ends. */
const endingField = (line: string, { tokens }: NumberColumn): number =>
  fieldsOf(line.slice(0, tokens[0]?.to ?? 0), ' ').length - 1;

const placed = (separator: string, at: number): LineFormat['unit'] => ({
  is: 'placed',
  place: { at: 'field', separator, field: at + 1 } satisfies Place,
});

/** A lone N among fields is as often a state (normal) as newtons: a person has to say which. */
const isUnit = (field: string): boolean => unitNamed(field) !== undefined && field.toUpperCase() !== 'N';
/** Glued to the number, or a word before it in the same field. */
const hasUnit = (field: string): boolean => /\d\s*[^\d\s]+$/u.test(field) || wordsBefore(field).some(isUnit);
const wordsBefore = (field: string): string[] => field.split(/[\s:=]+|(?=[+\-.,\d])/u).slice(0, -1);
const isNumber = (field: string): boolean => /\d/u.test(field);
