import { checksumReader } from './checksum.ts';
import { fieldsOf } from './fields.ts';
import { freeReader, unitLookup } from './freeLine.ts';
import { isUnreadable, type LineReading, type Unreadable, type WhyUnreadable } from './gaugeReading.ts';
import { unitNamed } from '../basics/units.ts';
import type { LineFormat, NumberPlace, Place } from './lineFormat.ts';
import { valueNamed } from './named.ts';
import { readNumber } from './numberText.ts';
import { statusLookup } from './statusWords.ts';
import { isNoise, textOf, withoutFrame } from './text.ts';

type LineReader = (line: Uint8Array) => LineReading | Unreadable;

/**
 * Prepares a format for reading; the result takes one line without its line end.
 * A reading is given only when the line has all that the format asks for; in doubt it is unreadable, with why.
 */
export function lineReader(format: LineFormat): LineReader {
  const body = format.number.at === 'free' ? freeReader(format) : placedReader(format, format.number);
  const checksum = checksumReader(format.checksum);
  return (line) => {
    const text = textOf(line);
    if (isNoise(text)) return refuse('noise');
    const begun = afterStart(text, format.start);
    if (begun === undefined) return refuse('no-start');
    if (format.length !== undefined && begun.length !== format.length) return refuse('wrong-length');
    const checked = checksum(begun);
    if (checked === undefined) return refuse('checksum');
    const own = afterLabel(checked, format);
    if (own === undefined) return refuse('other-label');
    return finish(body(own), format);
  };
}

/** One line by one format. To read many, prepare the format once with {@link lineReader}. */
export const readLine = (format: LineFormat, line: Uint8Array): LineReading | Unreadable => lineReader(format)(line);

const refuse = (why: WhyUnreadable): Unreadable => ({ why });

/** What follows the last start mark: a second one means that the line before it lost its end. */
function afterStart(text: string, start: string | undefined): string | undefined {
  if (start === undefined) return text;
  const at = text.lastIndexOf(start);
  return at < 0 ? undefined : text.slice(at + start.length);
}

/** With the label blanked out, columns stay where they are. The label "1" is none of "12.345". */
function afterLabel(text: string, { label, decimal }: LineFormat): string | undefined {
  if (label === undefined) return text;
  const rest = text.slice(label.length);
  const goesOn = /^\.?\d/u.test(rest) || (decimal !== '.' && /^,\d/u.test(rest));
  return text.startsWith(label) && !(/\d$/u.test(label) && goesOn) ? ' '.repeat(label.length) + rest : undefined;
}

function finish(line: LineReading | Unreadable, format: LineFormat): LineReading | Unreadable {
  if (isUnreadable(line)) return line;
  if (format.decimals !== undefined && line.decimals !== format.decimals) return refuse('wrong-decimals');
  const value = format.turnSign && line.value !== 0 ? -line.value : line.value;
  const unit = format.unit.is === 'fixed' ? format.unit.ucum : line.unit;
  const { unit: written, ...rest } = line;
  if (written !== undefined && written !== unit) return refuse('unknown-unit');
  return { ...rest, value, ...(unit !== undefined && { unit }) };
}

/** Reads a line whose number, and perhaps unit, have places of their own. A unit beside the number shares its place. */
function placedReader(format: LineFormat, place: NumberPlace): TextReader {
  const statusOf = statusLookup(format);
  const read = format.unit.is === 'beside' ? besideReader(format, place) : numberReader(format, place);
  return (text) => {
    const status = text
      .split(/[\s:=;,]+/u)
      .map(statusOf)
      .filter((each) => each !== undefined);
    // "HOLD=0" is a value of its own and no state.
    const holds = text.split(/[\s;,]+/u).some((word) => statusOf(word) === 'held');
    const bad = status.find((each) => each !== 'low-battery' && each !== 'held') ?? (holds ? 'held' : undefined);
    if (bad !== undefined) return refuse(bad);
    const line = read(text);
    return isUnreadable(line) ? line : { ...line, flags: status.includes('low-battery') ? ['low-battery'] : [] };
  };
}

function numberReader(format: LineFormat, place: NumberPlace): TextReader {
  const unitOf = format.unit.is === 'placed' ? placedUnit(format.unit) : loneUnit;
  return (text) => {
    const written = found(text, place);
    const number = written === undefined ? undefined : readNumber(written, format);
    if (number === undefined) return refuse('no-number');
    const unit = unitOf(text);
    if (unit !== undefined && 'why' in unit) return unit;
    return { ...number, ...unit, label: '', flags: [] };
  };
}

function besideReader(format: LineFormat, place: NumberPlace): TextReader {
  const read = freeReader(format);
  return (text) => {
    const part = found(text, place);
    return part === undefined ? refuse('no-number') : read(part);
  };
}

/** The text that has the number: by its place, or by its name. */
const found = (text: string, place: NumberPlace): string | undefined =>
  place.at === 'named' ? valueNamed(withoutFrame(text), place.name) : cut(text, place);

type TextReader = (text: string) => LineReading | Unreadable;

type UnitReader = (text: string) => { readonly unit: string } | Unreadable | undefined;

function placedUnit({ place, words }: Extract<LineFormat['unit'], { is: 'placed' }>): UnitReader {
  const named = unitLookup(words);
  return (text) => {
    const unit = named(cut(text, place) ?? '');
    return unit === undefined ? refuse('unknown-unit') : { unit };
  };
}

/**
 * Where the format has no place for a unit and one stands in the line all the same, the gauge has been switched to it, or the
 * format is another gauge's. A lone N is as often a state, and of two units nobody knows which is the number's.
 */
const loneUnit: UnitReader = (text) => {
  const words = text.match(/[A-Za-z\u00b5"]+(?:[\u00b7.-][A-Za-z]+)*/gu) ?? [];
  const named = words.flatMap((word) => (word.toUpperCase() === 'N' ? [] : (unitNamed(word)?.ucum ?? [])));
  const [unit, ...others] = new Set(named);
  return unit === undefined || others.length > 0 ? undefined : { unit };
};

/** The text at a place, or undefined where the line is too short to have it, or a sign standing apart would be lost. */
function cut(text: string, place: Place): string | undefined {
  if (place.at === 'columns') return text.length < place.to ? undefined : cutColumns(text, place.from, place.to);
  const fields = fieldsOf(text, place.separator);
  const found = fields[place.field - 1];
  if (found === undefined) return undefined;
  return isBareSign(fields[place.field - 2] ?? '') ? undefined : withoutFrame(found);
}

const isBareSign = (field: string): boolean => /^\s*[+-]\s*$/u.test(field);

/** Columns that cut a number in two are the wrong columns for this line: sign, digits, exponent must not go on beyond them. */
function cutColumns(text: string, from: number, to: number): string | undefined {
  const inside = text.slice(from - 1, to);
  const before = text.slice(0, from - 1);
  const cutBefore = /[\d.,]$/u.test(before) && /^[\d.,]/u.test(inside);
  const signBefore = /[+-]\s*$/u.test(before) && /^\s*[\d.,]/u.test(inside);
  const cutAfter = /^(?:[\d.,]|[eE][+-]?\d)/u.test(text.slice(to)) && /[\d.,]$/u.test(inside);
  return cutBefore || signBefore || cutAfter ? undefined : withoutFrame(inside);
}
