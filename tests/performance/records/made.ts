import { packBlock } from '../../../src/main/journal/blocks/block.ts';
import { openJournal } from '../../../src/main/journal/journal.ts';
import type { StoredRow } from '../../../src/main/journal/storedRow.ts';
import type { Database } from '../../../src/main/store/database.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import type { Deed, Entry } from '../../../src/shared/job/records/notebook.ts';
import { wholeNotebook } from '../../support/records/wholeBuild.ts';

const at_ms = Date.UTC(2021, 0, 4, 8);
const names = ['Lindqvist', 'Ostrander', 'Marsh', 'Okafor', 'Brandt', 'Navarro', 'Ilves', 'Tamm', 'Reyes', 'Holm'];
const axles = ['Rear 205', 'Rear 180', 'Front 190', 'Rear 220, used', 'Front 205, cage'];

const pick = (from: readonly string[], n: number): string => from[n % from.length] ?? '';

/** The entries of a made build: a whole job, with a customer, a plate and an axle of its own; ids are its own too. */
export function madeEntries(n: number, template: readonly Entry[]): Entry[] {
  const own = (id: string): string => `b${n}-${id}`;
  const began = at_ms + n * 4 * 3_600_000;
  const notes: readonly Deed[] = [
    { kind: 'noted', topic: 'customer', text: `${pick(names, n * 7)} ${n % 400}` },
    { kind: 'noted', topic: 'plate', text: `AX-${1000 + (n % 9000)} ${pick(['K', 'L', 'M'], n)}` },
    { kind: 'noted', topic: 'complaint', text: 'Hums under pull between 60 and 80, quiet on coast.' },
  ];
  const deeds: Deed[] = template.map(({ deed }) => owned(deed, own));
  const [start, ...rest] = deeds;
  const title = `Job ${20_000 + n}, ${pick(axles, n)}`;
  const first: Deed =
    start?.kind === 'started' ? { ...start, title } : { kind: 'started', title, technician: 'A. Tester' };
  return [first, ...notes, ...rest].map((deed, index) => ({
    // The template's own entries keep their names, so that what points at them still does.
    id: own(index === 0 ? 'e0' : index <= notes.length ? `n${index}` : `e${index - notes.length}`),
    version: 1,
    at: new Date(began + index * 60_000).toISOString(),
    by: pick(names, n),
    deed,
  }));
}

/** The same deed, pointing at entries of its own build; the axle is called by the name of the build's kind. */
function owned(deed: Deed, own: (id: string) => string): Deed {
  if (deed.kind === 'struck') return { ...deed, entry: own(deed.entry) };
  if (deed.kind === 'packs-measured') return { ...deed, swap: own(deed.swap) };
  if (deed.kind === 'assembled')
    return deed.assembly.swap === undefined
      ? deed
      : { ...deed, assembly: { ...deed.assembly, swap: own(deed.assembly.swap) } };
  return 'assembly' in deed ? { ...deed, assembly: own(deed.assembly) } : deed;
}

/** Writes so many builds, fifty in each transaction; their summaries are made by the bench's own code. */
export function writeBuilds(database: Database, builds: number): number {
  const notebooks = openNotebooks(database);
  const template = wholeNotebook({ trials: 2, stations: 8 });
  let entries = 0;
  for (let first = 0; first < builds; first += 50) {
    const written = database.write(() => {
      for (let n = first; n < Math.min(builds, first + 50); n += 1) {
        const made = madeEntries(n, template);
        entries += made.length;
        notebooks.takeIn(
          `b${n}`,
          made.map((entry) => ({ entry, bench: null })),
        );
      }
    });
    if (!written.ok) throw new Error(written.problem.sentence);
  }
  return entries;
}

export const longBuild = 'long';
const rowsOfOne = 3000;
/** Beyond those of the others. */
const numberOfLong = 100_001;

/** A build of eight trials whose streamed measurements rest on 3,000 readings each; where it is there already it stays. */
export function writeLongBuild(database: Database): { readonly entries: number; readonly readings: number } {
  const notebooks = openNotebooks(database);
  const template = wholeNotebook({ trials: 8, stations: 8 });
  let from = rowsInBlock;
  const made = madeEntries(numberOfLong, template).map((entry) => {
    const { deed } = entry;
    if (deed.kind !== 'measured' || deed.how.kind !== 'streamed') return entry;
    const stretch = { gauge: 'dial', from, to: from + rowsOfOne - 1 };
    from += rowsOfOne;
    return { ...entry, deed: { ...deed, how: { ...deed.how, stretch } } };
  });
  const told = { entries: made.length, readings: from - rowsInBlock };
  if (database.sql.prepare('SELECT 1 FROM notebook_entry WHERE build = ?').get(longBuild) !== undefined) return told;
  const written = database.write(() =>
    notebooks.takeIn(
      longBuild,
      made.map((entry) => ({ entry, bench: null })),
    ),
  );
  if (!written.ok) throw new Error(written.problem.sentence);
  return told;
}

const rowsInBlock = 1024;

/** Chance of the same seed every time, fast enough for fifty million rows (xorshift, Marsaglia 2003; shifts from memory). */
function quickChance(seed: number): () => number {
  let state = seed;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

const chance = quickChance(20_261_130);

/**
 * What a hand rocking a gear sends at 100/s: swings between two stops with rests, three decimals whose last one flickers, each line
 * up to 3 ms late on a clock of nanoseconds. The shape is made up; the noise and the clock decide how small it packs.
 */
function rockedRow(seq: number): StoredRow {
  const swing = Math.sin(seq / 37) ** 3;
  const value = Math.round(150 + 120 * Math.tanh(4 * swing) + 2 * (chance() + chance() - 1)) / 1000;
  const t = Number((seq / 100 + (3 * chance() ** 3) / 1000).toFixed(9));
  const raw = Buffer.from(`${value.toFixed(3)} mm\r\n`);
  return [seq, 1, 'reading', t, at_ms + Math.round(t * 1000), value, 'mm', raw, null];
}

/** Writes so many kept readings as settled blocks, packed by the bench's own code, without their time in the journal. @returns bytes */
export function writeReadings(database: Database, readings: number): number {
  const journal = openJournal(database);
  journal.append({
    kind: 'reading',
    gauge: 'dial',
    t: 0,
    at: at_ms,
    value: 0,
    unit: 'mm',
    raw: Buffer.from('0.000 mm\r\n'),
  });
  journal.flush();
  const next = journal.last() + 1;
  journal.close();
  const insert = database.sql.prepare(
    'INSERT INTO journal_block (from_seq, to_seq, rows, format, crc, bytes) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const keep = database.sql.prepare(
    "INSERT INTO kept (from_seq, to_seq, because, packed) VALUES (?, ?, 'measurement', 1)",
  );
  let bytes = 0;
  const last = next + readings - 1;
  const writeBlock = (from: number): void => {
    const rows = Array.from({ length: Math.min(last - from + 1, rowsInBlock) }, (_, index) => rockedRow(from + index));
    const block = packBlock(rows);
    insert.run(block.from_seq, block.to_seq, block.rows, block.format, block.crc, block.bytes);
    keep.run(block.from_seq, block.to_seq);
    bytes += block.bytes.length;
  };
  const writeSome = database.sql.transaction((from: number, to: number) => {
    for (let seq = from; seq <= to; seq += rowsInBlock) writeBlock(seq);
  });
  const atOnce = 64 * rowsInBlock;
  for (let from = next; from <= last; from += atOnce) writeSome(from, Math.min(last, from + atOnce - 1));
  return bytes;
}
