import type { LineFormat, Place } from '../../../shared/gauges/lineFormat.ts';
import { noCase } from '../../../shared/basics/noCase.ts';
import { ok, type Result } from '../../../shared/basics/result.ts';
import type { Frame } from './frame.ts';
import { refuse } from './refuse.ts';

type Words = Readonly<Record<'mm' | '[in_i]' | 'N.m' | '[lbf_av].[in_i]', string>>;
type Columns = Extract<Place, { readonly at: 'columns' }>;
type Field = Extract<Place, { readonly at: 'field' }>;

/** What is known when the parts of a line are put in their places. */
interface Parts extends Frame {
  readonly words: Words;
  /** The word of the unit in which the gauge starts. */
  readonly unitWord: string;
  /** Characters the longest number takes, sign included. */
  readonly least: number;
}

/** Where everything of a line stands, as simulated gauges are told it. */
interface Layout {
  readonly label: string;
  readonly fieldsBefore: readonly string[];
  readonly fieldsAfter: readonly string[];
  readonly separator: string;
  readonly unit: { readonly place: 'before' | 'after' | 'none'; readonly gap: string; readonly words: Words };
  /** Of the number; 0 leaves it as long as it is. */
  readonly width: number;
}

/** Puts label, number and unit where the format looks for them. */
export function layoutFor(format: LineFormat, parts: Parts): Result<Layout> {
  const { number } = format;
  if (number.at === 'columns') return byColumns(format, number, parts);
  const laid = byMarks(format, number, parts);
  return laid.ok ? ofLength(laid.value, format.length, parts) : laid;
}

/** A line whose parts follow each other, however long each of them is. */
function byMarks(format: LineFormat, number: Exclude<LineFormat['number'], Columns>, parts: Parts): Result<Layout> {
  switch (number.at) {
    case 'field':
      return byFields(format, number, parts);
    case 'free':
      return ok(freely(format, parts));
    case 'named': {
      const line = freely(format, parts);
      return ok({ ...line, label: `${line.label}${number.name}=` });
    }
    default:
      throw noCase(number);
  }
}

const spaced = (label: string | undefined): string =>
  label === undefined || label.endsWith(' ') ? (label ?? '') : `${label} `;

const carriesUnit = ({ unit }: LineFormat): boolean => unit.is === 'beside' || unit.is === 'placed';

const freely = (format: LineFormat, { mark, words }: Parts): Layout => ({
  label: mark + spaced(format.label),
  fieldsBefore: [],
  fieldsAfter: [],
  separator: '',
  unit: { place: carriesUnit(format) ? 'after' : 'none', gap: ' ', words },
  width: 0,
});

/** What stands in fields that are nobody's concern. */
const filler = '0';

function byFields(format: LineFormat, number: Field, { mark, words }: Parts): Result<Layout> {
  const { separator, field } = number;
  const fillers = (count: number): string[] => Array.from({ length: count }, () => filler);
  const label = mark + spaced(format.label);
  const line = { label, separator, fieldsBefore: fillers(field - 1), fieldsAfter: [], width: 0 };
  const { unit } = format;
  if (unit.is !== 'placed') {
    // Where blanks separate, a blank before the unit would make another field of it.
    const gap = separator.trim() === '' ? '' : ' ';
    return ok({ ...line, unit: { place: unit.is === 'beside' ? 'after' : 'none', gap, words } });
  }
  const { place } = unit;
  if (place.at !== 'field' || place.separator !== separator || place.field === field)
    return refuse('unit.place', 'number and unit stand in two fields, with the same separator');
  const between =
    separator +
    fillers(Math.abs(place.field - field) - 1)
      .map((each) => each + separator)
      .join('');
  if (place.field > field) return ok({ ...line, unit: { place: 'after', gap: between, words } });
  const fieldsBefore = fillers(place.field - 1);
  return ok({ ...line, fieldsBefore, unit: { place: 'before', gap: between, words } });
}

/** Fills the number up on the left until the line is as long as it must be. */
function ofLength(layout: Layout, length: number | undefined, parts: Parts): Result<Layout> {
  if (length === undefined) return ok(layout);
  // Filled up with blanks, an STX that stays in the line would stand as a word of its own.
  if (parts.lead > 0 && layout.separator.trim() === '' && layout.separator !== '')
    return refuse('length', 'make STX the start mark');
  const { label, fieldsBefore, fieldsAfter, separator, unit } = layout;
  const unitLength = unit.place === 'none' ? 0 : unit.gap.length + parts.unitWord.length;
  const others = [...fieldsBefore, '', ...fieldsAfter].join(separator).length;
  const check = parts.check === 'none' ? 0 : 2;
  const width = length - parts.lead - (label.length - parts.mark.length) - others - unitLength - check;
  if (width < parts.least) return refuse('length', `the line needs ${length + parts.least - width} characters`);
  return ok({ ...layout, width });
}

function byColumns(format: LineFormat, number: Columns, parts: Parts): Result<Layout> {
  const beside = format.unit.is === 'beside' ? 1 + parts.unitWord.length : 0;
  const width = number.to - number.from + 1 - beside;
  if (width < parts.least) return refuse('number.to', `the number needs ${parts.least + beside} columns`);
  const unit =
    format.unit.is === 'placed' && format.unit.place.at === 'field'
      ? unitByWord(format, format.unit.place, number, parts)
      : unitByColumns(format, number, parts);
  if (!unit.ok) return unit;
  const begins = unit.value.first;
  const own = format.label ?? '';
  const room = begins - 1 - parts.lead;
  if (own.length > room) return refuse('number.from', 'the label and what precedes it need the columns before it');
  const tail = tailFor(format, parts, unit.value.last);
  if (tail < 0) return refuse('length', 'number and unit reach beyond it');
  const { place, gap, words } = unit.value;
  return ok({
    label: parts.mark + own.padEnd(room),
    fieldsBefore: [],
    fieldsAfter: tail === 0 ? [] : [' '.repeat(tail)],
    separator: '',
    unit: { place, gap, words },
    width,
  });
}

/** Blanks between the last column used and the check characters. */
function tailFor(format: LineFormat, parts: Parts, last: number): number {
  if (format.length === undefined) return 0;
  return format.length - last - (parts.check === 'none' ? 0 : 2);
}

/** The unit as the line has it, and the first and last column that number and unit take together. */
type UnitInColumns = Layout['unit'] & { readonly first: number; readonly last: number };

function unitByColumns({ unit }: LineFormat, { from, to }: Columns, { words }: Parts): Result<UnitInColumns> {
  if (unit.is === 'beside') return ok({ place: 'after', gap: ' ', words, first: from, last: to });
  if (unit.is !== 'placed') return ok({ place: 'none', gap: '', words, first: from, last: to });
  const { place } = unit;
  if (place.at !== 'columns') return refuse('unit.place', 'the unit stands in columns');
  const width = place.to - place.from + 1;
  const padded = Object.fromEntries(Object.entries(words).map(([code, word]) => [code, word.padEnd(width)]));
  const filled = { ...words, ...padded };
  if (place.from > to)
    return ok({ place: 'after', gap: ' '.repeat(place.from - 1 - to), words: filled, first: from, last: place.to });
  if (place.to < from)
    return ok({ place: 'before', gap: ' '.repeat(from - 1 - place.to), words: filled, first: place.from, last: to });
  return refuse('unit.place', 'number and unit stand in the same columns');
}

/** A unit found by counting words behind a number found by columns: every blank between them is ours. */
function unitByWord(format: LineFormat, place: Field, { from, to }: Columns, parts: Parts): Result<UnitInColumns> {
  const before = ' '.repeat(parts.lead).replaceAll(' ', filler) + (format.label ?? '');
  const words = before.split(' ').filter((word) => word !== '').length;
  const between = place.field - words - 2;
  if (place.separator.trim() !== '' || between < 0)
    return refuse('unit.place', 'behind a number in columns the unit is found by counting words parted by blanks');
  const gap = ` ${`${filler} `.repeat(between)}`;
  const last = to + gap.length + parts.unitWord.length;
  return ok({ place: 'after', gap, words: parts.words, first: from, last });
}
