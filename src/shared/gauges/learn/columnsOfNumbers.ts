import { fieldsOf, signsJoined } from '../fields.ts';
import type { LineFormat, Place } from '../lineFormat.ts';
import { unitNamed } from '../../basics/units.ts';
import { readNumber } from '../numberText.ts';
import { type Movement, movementOf } from './movement.ts';

/** One number of a line and where it stands, counted from 0; `to` is the first character after it. */
interface Token {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/** The n-th number of every line, followed through all of them. */
export interface NumberColumn {
  readonly place: Place;
  readonly tokens: readonly Token[];
  readonly values: readonly number[];
  readonly hasDecimals: boolean;
  readonly role: Movement;
}

type Decimal = LineFormat['decimal'];

/** A time of day or a date says when, not where the spindle is. */
const clock =
  /(?<![\d.,])(?:\d{1,2}:\d\d:\d\d(?:[.,]\d+(?![\d.,]))?|\d{4}-\d\d-\d\d|\d{1,2}([./])\d{1,2}\1\d{2,4})(?![\d.])/gu;

/** Digits glued to letters ("CH1") are a name unless they have decimals or a sign. */
const token = /(?<![\d.,])(?:[+-][ ]*)?(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?(?![\d.,])/gu;

function tokensOf(text: string): Token[] {
  return Array.from(text.replaceAll(clock, blanks).matchAll(token), (found) => ({
    text: found[0],
    from: found.index,
    to: found.index + found[0].length,
  })).filter(({ text: digits, from }) => !/[A-Za-z_]/u.test(text.charAt(from - 1)) || /[.,+-]/u.test(digits));
}

const blanks = (part: string): string => ' '.repeat(part.length);

/** The numbers that every line has, in order; empty where lines differ in how many they have. */
export function numberColumns(lines: readonly string[], decimal: Decimal): NumberColumn[] {
  const tokens = lines.map((line) => tokensOf(decimal === '.' ? line.replaceAll(',', ' ') : line));
  const count = tokens[0]?.length ?? 0;
  if (tokens.some((each) => each.length !== count)) return [];
  return Array.from({ length: count }, (_, n) => n).flatMap((n) => {
    const column = tokens.flatMap((each) => each[n] ?? []);
    const place = fieldPlace(column, lines) ?? columnsPlace(column, lines);
    const numbers = column.flatMap(({ text }) => readNumber(text, { decimal, sign: 'leading' }) ?? []);
    if (place === undefined || numbers.length < column.length) return [];
    const values = numbers.map(({ value }) => value);
    const decimals = Math.max(...numbers.map((number) => number.decimals));
    const step = numbers.some(({ exponent }) => exponent) ? undefined : 10 ** -decimals;
    return [{ place, tokens: column, values, hasDecimals: decimals > 0, role: movementOf(values, step) }];
  });
}

/** Lines all of one length whose number ends at one column: a fixed place, with the blanks a longer number would fill. */
function columnsPlace(column: readonly Token[], lines: readonly string[]): Place | undefined {
  const length = lines[0]?.length;
  const end = column[0]?.to;
  if (end === undefined || lines.some((line) => line.length !== length)) return undefined;
  if (column.some(({ to }) => to !== end)) return undefined;
  const begin = Math.max(...column.map(({ from }, i) => (lines[i] ?? '').slice(0, from).trimEnd().length));
  const least = Math.min(...column.map(({ from }) => from));
  return { at: 'columns', from: Math.min(begin, least) + 1, to: end };
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
  // Anything in the number's place shows which field that is.
  const at = fieldsOf(`${line.slice(0, wanted.from)}x`, separator).length - 1;
  return isNumberWithUnit(fieldsOf(line, separator)[at] ?? '', wanted.text) ? at + 1 : undefined;
}

/** The field is the number alone, or words without digits before it and a unit or nothing after it. */
function isNumberWithUnit(written: string, number: string): boolean {
  const field = signsJoined(written);
  const text = signsJoined(number.trim());
  const at = field.indexOf(text);
  const rest = field.slice(at + text.length).trim();
  return at >= 0 && !/[\d+\-.,]/u.test(field.slice(0, at)) && (rest === '' || unitNamed(rest) !== undefined);
}
