import { z } from 'zod';
import type { StoredRow } from '../storedRow.ts';
import {
  decimalsOf,
  doubleBytes,
  doubleReader,
  numberOf,
  numberReader,
  type NumberWriter,
  numberWriter,
  wholeOf,
} from './numbers.ts';

/** The columns of one gauge's rows, each a run of bytes, in this order. */
const streams = ['seq', 'sort', 't', 'at', 'value', 'length', 'raw'] as const;

/** What is the same in many rows: told once and named by its place. */
const sortSchema = z.strictObject({
  kind: z.string(),
  unit: z.string().nullable(),
  note: z.string().nullable(),
  /** 0 no value, 1 a value, 2 a zero with a minus sign, which no whole number has. */
  value: z.int().min(0).max(2),
  raw: z.boolean(),
});
type Sort = z.infer<typeof sortSchema>;

/** How the columns of one gauge's rows are written; decimals null where numbers stand as they lie in memory. */
export const laneHeadSchema = z.strictObject({
  gauge: z.number().nullable(),
  rows: z.int().min(1),
  sorts: z.array(sortSchema),
  t: z.int().nullable(),
  value: z.int().nullable(),
  /** All lines have so many bytes, and stand column by column; null where they stand one after the other. */
  line: z.int().nullable(),
  bytes: z.array(z.int().min(0)).length(streams.length),
});
export type LaneHead = z.infer<typeof laneHeadSchema>;

interface Packed {
  readonly head: LaneHead;
  readonly parts: readonly Uint8Array[];
}

/** Times are read off a clock that counts nanoseconds; values are read from text. */
const mostDecimals = { t: 9, value: 9 } as const;

/** Packs the rows of one gauge, in rising order. */
export function packLane(gauge: number | null, rows: readonly StoredRow[]): Packed {
  const sorts = sortsOf(rows);
  const times = rows.map(([, , , t]) => t);
  const values = rows.flatMap(([, , , , , value]) => (value === null || Object.is(value, -0) ? [] : [value]));
  const lines = rows.flatMap(([, , , , , , , raw]) => (raw === null ? [] : [raw]));
  const t = decimalsOf(times, mostDecimals.t) ?? null;
  const value = decimalsOf(values, mostDecimals.value) ?? null;
  const line =
    lines.length > 0 && lines.every(({ length }) => length === lines[0]?.length) ? lines[0]?.length : undefined;
  const parts = [
    written(rows, ([seq]) => seq),
    sorts.column,
    numbers(times, t, 2),
    written(arrivals(rows), (each) => each, 0),
    numbers(values, value, 1),
    line === undefined ? written(lines, ({ length }) => length) : new Uint8Array(0),
    line === undefined ? Buffer.concat(lines) : turned(lines, line),
  ];
  const head = { gauge, rows: rows.length, sorts: sorts.sorts, t, value, line: line ?? null };
  return { head: { ...head, bytes: parts.map(({ length }) => length) }, parts };
}

/** Each number as its difference to the one before; of order 0 as it is. */
function written<T>(items: readonly T[], of: (item: T) => number, order: 0 | 1 | 2 = 1): Uint8Array {
  const writer = numberWriter();
  writeDifferences(writer, items.map(of), order);
  return writer.bytes();
}

function writeDifferences(writer: NumberWriter, numbers: readonly number[], order: 0 | 1 | 2): void {
  let before = 0;
  let step = 0;
  for (const number of numbers) {
    const difference = number - before;
    writer.put(order === 0 ? number : order === 1 ? difference : difference - step);
    before = number;
    step = difference;
  }
}

const numbers = (all: readonly number[], decimals: number | null, order: 1 | 2): Uint8Array =>
  decimals === null ? doubleBytes(all) : written(all, (value) => wholeOf(value, decimals), order);

/** Wall time less what it would be by the bench's own clock: all but nothing while the clock is not set. */
function arrivals(rows: readonly StoredRow[]): readonly number[] {
  const clock = wallClock();
  return rows.map(([, , , t, at]) => {
    const off = at - clock.expected(t);
    clock.saw(t, at);
    return off;
  });
}

/** Ten years, ms: times further apart are none. */
const longest_ms = 3e11;

function wallClock() {
  let [t0, at0] = [0, 0];
  return {
    expected(t: number): number {
      const since_ms = Math.round((t - t0) * 1000);
      return Math.abs(since_ms) < longest_ms ? at0 + since_ms : at0;
    },
    saw(t: number, at: number): void {
      [t0, at0] = [t, at];
    },
  };
}

function sortsOf(rows: readonly StoredRow[]): { readonly sorts: Sort[]; readonly column: Uint8Array } {
  const places = new Map<string, number>();
  const sorts: Sort[] = [];
  const writer = numberWriter();
  let [last, lastPlace]: [Sort | undefined, number] = [undefined, 0];
  for (const [, , kind, , , value, unit, raw, note] of rows) {
    const has = value === null ? 0 : Object.is(value, -0) ? 2 : 1;
    const sort: Sort = { kind, unit, note, value: has, raw: raw !== null };
    if (last !== undefined && isSameSort(sort, last)) {
      writer.put(lastPlace);
      continue;
    }
    // Told apart by signs that stand in no unit and no note: as JSON this was a tenth of all packing.
    const key = `${kind}\0${unit ?? '\u0001'}\0${note ?? '\u0001'}\0${has}${raw === null ? '' : 'r'}`;
    const place = places.get(key) ?? sorts.push(sort) - 1;
    places.set(key, place);
    [last, lastPlace] = [sort, place];
    writer.put(place);
  }
  return { sorts, column: writer.bytes() };
}

const isSameSort = (one: Sort, other: Sort): boolean =>
  one.kind === other.kind &&
  one.unit === other.unit &&
  one.note === other.note &&
  one.value === other.value &&
  one.raw === other.raw;

/** Lines of one length, column by column: what every line has in the same place lies side by side. */
function turned(lines: readonly Uint8Array[], length: number): Uint8Array {
  const bytes = new Uint8Array(lines.length * length);
  for (const [row, line] of lines.entries())
    for (let column = 0; column < length; column += 1) bytes[column * lines.length + row] = line[column] ?? 0;
  return bytes;
}

/**
 * The rows of one gauge back from their columns.
 * @param bytes false leaves the bytes of everything but unreadable lines out.
 * @throws where the columns do not hold what their head says
 */
export function unpackLane(head: LaneHead, body: Uint8Array, bytes: boolean): StoredRow[] {
  const part = partsOf(head, body);
  const seqs = summed(numberReader(part('seq')), 1);
  const sorts = numberReader(part('sort'));
  const times = readerOf(part('t'), head.t, 2);
  const offs = numberReader(part('at'));
  const values = readerOf(part('value'), head.value, 1);
  const lines = bytes || head.sorts.some(({ kind }) => kind === 'unreadable') ? lineReader(head, part) : undefined;
  const clock = wallClock();
  const rows: StoredRow[] = [];
  for (let row = 0; row < head.rows; row += 1) {
    const sort = head.sorts[sorts()];
    if (sort === undefined) throw new RangeError('a row is of no sort');
    const [seq, t] = [seqs(), times()];
    const at = clock.expected(t) + offs();
    clock.saw(t, at);
    const value = sort.value === 0 ? null : sort.value === 2 ? -0 : values();
    const raw = sort.raw ? lines?.() : undefined;
    const isWanted = bytes || sort.kind === 'unreadable';
    rows.push([seq, head.gauge, sort.kind, t, at, value, sort.unit, isWanted ? (raw ?? null) : null, sort.note]);
  }
  return rows;
}

type PartOf = (name: (typeof streams)[number]) => Uint8Array;

function partsOf(head: LaneHead, body: Uint8Array): PartOf {
  const ends: number[] = [];
  for (const length of head.bytes) ends.push((ends.at(-1) ?? 0) + length);
  if (ends.at(-1) !== body.length) throw new RangeError('the columns have another length');
  return (name) => {
    const index = streams.indexOf(name);
    return body.subarray(index === 0 ? 0 : ends[index - 1], ends[index]);
  };
}

/** The numbers whose differences of this order are read. */
function summed(read: () => number, order: 1 | 2): () => number {
  let [before, step] = [0, 0];
  return () => {
    step = order === 1 ? read() : step + read();
    before += step;
    return before;
  };
}

function readerOf(part: Uint8Array, decimals: number | null, order: 1 | 2): () => number {
  if (decimals === null) return doubleReader(part);
  const whole = summed(numberReader(part), order);
  return () => numberOf(whole(), decimals);
}

function lineReader({ line }: LaneHead, part: PartOf): () => Uint8Array {
  const raw = part('raw');
  let at = 0;
  if (line === null) {
    const lengths = summed(numberReader(part('length')), 1);
    return () => {
      const length = lengths();
      at += length;
      return Buffer.from(raw.subarray(at - length, at));
    };
  }
  const rows = line === 0 ? raw : turnedBack(raw, line);
  return () => {
    at += line;
    return rows.subarray(at - line, at);
  };
}

/** Lines of one length that stood column by column, one after the other. */
function turnedBack(columns: Uint8Array, length: number): Buffer {
  const many = columns.length / length;
  // One piece for all: a buffer for each line takes as long as everything else together.
  const bytes = Buffer.allocUnsafe(columns.length);
  for (let column = 0; column < length; column += 1)
    for (let row = 0; row < many; row += 1) bytes[row * length + column] = columns[column * many + row] ?? 0;
  return bytes;
}
