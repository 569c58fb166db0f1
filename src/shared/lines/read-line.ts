import { checksumReader } from './checksum.ts';
import { freeReader, unitLookup } from './free-line.ts';
import { isUnreadable, type LineReading, type Unreadable, type WhyUnreadable } from './gauge-reading.ts';
import type { LineFormat, Place } from './line-format.ts';
import { readNumber } from './number-text.ts';
import { statusLookup } from './status-words.ts';
import { isNoise, textOf, withoutFrame } from './text.ts';

export type LineReader = (line: Uint8Array) => LineReading | Unreadable;

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
    const own = afterLabel(checked, format.label);
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

/** With the label blanked out, columns stay where they are. */
function afterLabel(text: string, label: string | undefined): string | undefined {
  if (label === undefined) return text;
  return text.startsWith(label) ? ' '.repeat(label.length) + text.slice(label.length) : undefined;
}

function finish(line: LineReading | Unreadable, format: LineFormat): LineReading | Unreadable {
  if (isUnreadable(line)) return line;
  if (format.decimals !== undefined && line.decimals !== format.decimals) return refuse('wrong-decimals');
  const value = format.turnSign && line.value !== 0 ? -line.value : line.value;
  const unit = format.unit.is === 'fixed' ? format.unit.ucum : line.unit;
  const { unit: _written, ...rest } = line;
  if (format.unit.is === 'fixed' && line.unit !== undefined && line.unit !== unit) return refuse('unknown-unit');
  if (format.unit.is === 'not-sent' || unit === undefined) return { ...rest, value };
  return { ...rest, value, unit };
}

/** Reads a line whose number, and perhaps unit, have places of their own. A unit beside the number shares its place. */
function placedReader(format: LineFormat, place: Place): TextReader {
  if (format.unit.is === 'beside') return besideReader(format, place);
  const statusOf = statusLookup(format);
  const unitOf = placedUnit(format);
  return (text) => {
    const status = text
      .split(/[\s:=;,]+/u)
      .map(statusOf)
      .filter((each) => each !== undefined);
    const bad = status.find((each) => each !== 'low-battery');
    if (bad === 'overload' || bad === 'gauge-error') return refuse(bad);
    const written = cut(text, place);
    const number = written === undefined ? undefined : readNumber(written, format);
    if (number === undefined) return refuse('no-number');
    const unit = unitOf(text);
    if (unit !== undefined && 'why' in unit) return unit;
    return { ...number, ...unit, label: '', flags: status.includes('low-battery') ? ['low-battery'] : [] };
  };
}

function besideReader(format: LineFormat, place: Place): TextReader {
  const read = freeReader(format);
  return (text) => {
    const part = cut(text, place);
    return part === undefined ? refuse('no-number') : read(part);
  };
}

type TextReader = (text: string) => LineReading | Unreadable;

function placedUnit(format: LineFormat): (text: string) => { readonly unit: string } | Unreadable | undefined {
  if (format.unit.is !== 'placed') return () => undefined;
  const { place, words } = format.unit;
  const named = unitLookup(words);
  return (text) => {
    const unit = named(cut(text, place) ?? '');
    return unit === undefined ? refuse('unknown-unit') : { unit };
  };
}

/** The text at a place, or undefined where the line is too short to have it. */
function cut(text: string, place: Place): string | undefined {
  if (place.at === 'columns') return text.length < place.to ? undefined : cutColumns(text, place.from, place.to);
  const fields = place.separator.trim() === '' ? text.trim().split(/\s+/u) : text.split(place.separator);
  const found = fields[place.field - 1];
  return found === undefined ? undefined : withoutFrame(found);
}

/** Columns that cut a number in two are the wrong columns for this line: digits must not go on beyond them. */
function cutColumns(text: string, from: number, to: number): string | undefined {
  const inside = text.slice(from - 1, to);
  const cutBefore = /[\d.,+-]$/u.test(text.slice(0, from - 1)) && /^[\d.,]/u.test(inside);
  const cutAfter = /^[\d.,]/u.test(text.slice(to)) && /[\d.,]$/u.test(inside);
  return cutBefore || cutAfter ? undefined : withoutFrame(inside);
}
