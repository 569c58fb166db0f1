import { z } from 'zod';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { EventKind, JournalRow } from './entry.ts';
import { type StoredRow, storedFrom } from './storedRow.ts';

/**
 * Journal rows as lines of CSV (RFC 4180, without quotes: whatever would need them is escaped), whole and reversible, for
 * certificates and bundles. Values and UCUM units as received; `t_s` monotonic seconds of the bench's run, `at_ms` wall-clock
 * milliseconds since 1970 UTC. Bytes stand between angle brackets, those that are no plain sign as \xNN: no field of ours
 * can begin like a formula of a spreadsheet, but for a number.
 */
export const csvColumns = ['row', 't_s', 'at_ms', 'of', 'kind', 'value', 'unit_ucum', 'raw', 'note'] as const;

/** One row as a line without its end. */
export const csvLine = (row: JournalRow): string => storedLine(storedFrom(row, gaugeOfLine));

/** A line only says whether a row is of its gauge or of the whole bench. */
const gaugeOfLine = 1;

/** The same of a row as it lies on disk. */
export function storedLine([seq, gauge, kind, t, at, value, unit, raw, note]: StoredRow): string {
  const of = gauge === null ? 'bench' : 'gauge';
  if (kind === 'reading' && gauge !== null)
    return `${seq},${t},${at},${of},${kind},${value},${wordField(unit ?? '')},${bytesField(raw ?? none)},${note === null ? '' : wordField(note)}`;
  if (kind === 'unreadable')
    return `${seq},${t},${at},${of},${kind},,,${bytesField(raw ?? none)},${wordField(note ?? '')}`;
  return `${seq},${t},${at},${of},${kind},,,,${note === null ? '' : wordField(note)}`;
}

const none = new Uint8Array(0);

const plainWord = /^[\p{L}\d[\]{}().%_/ :;→-]*$/u;

/** Words of ours as they are, anything else as its bytes. Units and notes are few, and each stands in a thousand rows. */
function wordField(words: string): string {
  const known = fields.get(words);
  if (known !== undefined) return known;
  const isPlainWord = plainWord.test(words) && !/^[-=+@\s]/u.test(words) && words !== '';
  const field = isPlainWord ? words : bytesField(Buffer.from(words));
  if (fields.size >= mostFields) fields.clear();
  fields.set(words, field);
  return field;
}

const mostFields = 256;
const fields = new Map<string, string>();

/** Written out of a table: a million readings have ten million bytes. */
function bytesField(bytes: Uint8Array): string {
  let text = '<';
  for (const byte of bytes) text += signs[byte] ?? '';
  return `${text}>`;
}

/** Letters, digits and signs that mean nothing in CSV or in this writing. */
const isPlain = (byte: number): boolean =>
  byte >= 0x20 && byte < 0x7f && !'",<>\\'.includes(String.fromCodePoint(byte));
const hex = (byte: number): string => byte.toString(16).padStart(2, '0');
const signs = Array.from({ length: 256 }, (_, byte) =>
  isPlain(byte) ? String.fromCodePoint(byte) : `\\x${hex(byte)}`,
);

const eventKinds = [
  'opened',
  'live',
  'gone',
  'silent',
  'sending',
  'unit',
  'pedal',
  'clock',
  'thinned',
  'lost',
] as const satisfies readonly EventKind[];

const number = z
  .string()
  .regex(/^-?\d+(?:\.\d+)?(?:e[+-]?\d+)?$/u)
  .transform(Number);
const whole = z.string().regex(/^\d+$/u).transform(Number);
const kindSchema = z.enum(['reading', 'unreadable', ...eventKinds]);
const lineSchema = z.tuple([
  whole,
  number,
  whole,
  z.enum(['gauge', 'bench']),
  kindSchema,
  z.string(),
  z.string(),
  z.string(),
  z.string(),
]);

/**
 * The rows of one stretch back from their lines. `gauge` is whose stretch it is.
 * Fails with the number of the first line (counted from 1) that is none, or whose row number does not rise.
 */
export function rowsFromCsv(lines: readonly string[], gauge: string): Result<readonly JournalRow[]> {
  const rows: JournalRow[] = [];
  for (const [index, line] of lines.entries()) {
    const row = rowFromLine(line, gauge);
    if (row === undefined || row.seq <= (rows.at(-1)?.seq ?? -1) || csvLine(row) !== line)
      return fail(notALine(index + 1));
    rows.push(row);
  }
  return ok(rows);
}

function rowFromLine(line: string, ofGauge: string): JournalRow | undefined {
  const parsed = lineSchema.safeParse(line.split(','));
  if (!parsed.success) return undefined;
  const [seq, t, at, of, kind, value, unit, raw, note] = parsed.data;
  const noted = note === '' ? {} : { note: wordsFrom(note) };
  if (kind === 'reading') {
    const read = number.safeParse(value);
    return read.success
      ? { seq, t, at, gauge: ofGauge, kind, value: read.data, unit: wordsFrom(unit), raw: bytesFrom(raw), ...noted }
      : undefined;
  }
  if (kind === 'unreadable') return { seq, t, at, gauge: ofGauge, kind, raw: bytesFrom(raw), note: wordsFrom(note) };
  return { seq, t, at, kind, ...(of === 'gauge' ? { gauge: ofGauge } : {}), ...noted };
}

const wordsFrom = (field: string): string => (field.startsWith('<') ? bytesFrom(field).toString('utf8') : field);

function bytesFrom(field: string): Buffer {
  const inside = field.replace(/^</u, '').replace(/>$/u, '');
  return Buffer.from(
    inside.replaceAll(/\\x([0-9a-f]{2})/gu, (_, code: string) => String.fromCodePoint(Number.parseInt(code, 16))),
    'latin1',
  );
}

const notALine = (line: number) => ({
  kind: 'not-a-reading',
  field: `line ${line}`,
  sentence: `Line ${line} of these readings is not one that a bench wrote.`,
  remedy: 'Take the file as it was written.',
});
