import type { LineFormat, Place } from '../line-format.ts';
import { unitNamed } from '../../quantities/units.ts';
import { readNumber } from '../number-text.ts';

/** One number of a line and where it stands, counted from 0; `to` is the first character after it. */
interface Token {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/** The n-th number of every line, followed through all of them. */
export interface NumberColumn {
  readonly place: Place;
  readonly values: readonly number[];
  readonly decimals: readonly number[];
  readonly role: 'still' | 'counts' | 'moves';
}

type Decimal = LineFormat['decimal'];

/** Digits glued to letters ("CH1") are a name unless they have decimals. */
const token = /(?<![\d.,])(?:[+-][ ]*)?(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?(?![\d.,])/gu;

function tokensOf(text: string): Token[] {
  return Array.from(text.matchAll(token), (found) => ({
    text: found[0],
    from: found.index,
    to: found.index + found[0].length,
  })).filter(({ text: digits, from }) => !/[A-Za-z_]/u.test(text.charAt(from - 1)) || /[.,]/u.test(digits));
}

/** The numbers that every line has, in order; empty where lines differ in how many they have. */
export function numberColumns(lines: readonly string[], decimal: Decimal): NumberColumn[] {
  const tokens = lines.map((line) => tokensOf(decimal === '.' ? line.replaceAll(',', ' ') : line));
  const count = tokens[0]?.length ?? 0;
  if (tokens.some((each) => each.length !== count)) return [];
  return Array.from({ length: count }, (_, n) => n).flatMap((n) => {
    const column = tokens.flatMap((each) => each[n] ?? []);
    const place = columnsPlace(column, lines) ?? fieldPlace(column, lines);
    const numbers = column.map(({ text }) => readNumber(text, { decimal, sign: 'leading' }));
    if (place === undefined || numbers.some((number) => number === undefined)) return [];
    const values = numbers.flatMap((number) => number?.value ?? []);
    return [{ place, values, decimals: numbers.flatMap((number) => number?.decimals ?? []), role: roleOf(values) }];
  });
}

/** Lines all of one length whose number ends at one column: a fixed place. */
function columnsPlace(column: readonly Token[], lines: readonly string[]): Place | undefined {
  const length = lines[0]?.length;
  const end = column[0]?.to;
  if (end === undefined || lines.some((line) => line.length !== length)) return undefined;
  if (column.some(({ to }) => to !== end)) return undefined;
  return { at: 'columns', from: Math.min(...column.map(({ from }) => from)) + 1, to: end };
}

/** The n-th field by the first separator under which the number is a field of its own in every line. */
function fieldPlace(column: readonly Token[], lines: readonly string[]): Place | undefined {
  for (const separator of [';', ',', '\t', ' ']) {
    const fields = lines.map((line, i) => fieldOf(line, separator, column[i]));
    const field = fields[0];
    if (field !== undefined && fields.every((each) => each === field)) return { at: 'field', separator, field };
  }
  return undefined;
}

function fieldOf(line: string, separator: string, wanted: Token | undefined): number | undefined {
  if (wanted === undefined || (separator !== ' ' && !line.includes(separator))) return undefined;
  const fields = separator.trim() === '' ? line.trim().split(/\s+/u) : line.split(separator);
  const before = line.slice(0, wanted.from);
  const at =
    separator.trim() === '' ? before.trim().split(/\s+/u).filter(Boolean).length : before.split(separator).length - 1;
  return isNumberWithUnit(fields[at] ?? '', wanted.text) ? at + 1 : undefined;
}

/** The field is the number alone, or the number with a unit after it. */
function isNumberWithUnit(field: string, number: string): boolean {
  const rest = field.trim().slice(number.trim().length).trim();
  return field.trim().startsWith(number.trim()) && (rest === '' || unitNamed(rest) !== undefined);
}

/** A counter goes up by the same step nearly every time; a clock does too. */
function roleOf(values: readonly number[]): NumberColumn['role'] {
  const steps = values.slice(1).map((value, i) => value - (values[i] ?? 0));
  if (steps.every((step) => step === 0)) return 'still';
  const first = steps.find((step) => step > 0) ?? 0;
  const regular = steps.filter((step) => Math.abs(step - first) < 1e-9).length;
  return steps.length >= 3 && regular >= steps.length - 1 ? 'counts' : 'moves';
}
