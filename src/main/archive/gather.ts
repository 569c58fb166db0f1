import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate as afterEvents } from 'node:timers/promises';
import { z } from 'zod';
import { stretchSchema } from '../../shared/job/records/measurement.ts';
import { canonicalJson } from '../certificate/hash.ts';
import { rowsFromCsv, storedLine } from '../journal/csv.ts';
import { storedReader } from '../journal/readRows.ts';
import { type StoredRow, storedFrom } from '../journal/storedRow.ts';
import type { Database } from '../store/database.ts';
import { openPhotos } from '../store/photos.ts';
import { openStretches, type StretchNamed } from '../store/stretches.ts';
import { packEntry, packStretch } from './hold.ts';
import type { SentEntry, SentStretch } from './sending.ts';

/** Where things to be sent come from: the records, read beside a bench at work. */
export interface Stock {
  /** The next lines of all notebooks behind a line, in order. */
  linesAfter(after: number, most: number): readonly Line[];
  /** An entry with everything it rests on. Readings are read a page at a time, and others have their turn after each stretch. */
  gathered(line: Line, shared: Shared): Promise<SentEntry>;
}

/** An entry by its line, before anything is fetched for it. */
export interface Line {
  readonly line: number;
  readonly id: string;
  readonly build: string;
  readonly json: string;
  readonly sha256: Buffer;
  /** So many entries of its notebook stand before it. */
  readonly place: number;
  /** The bench it is of, where that is another. */
  readonly wrote: string | null;
  readonly deed: unknown;
}

interface Row {
  readonly line: number;
  readonly id: string;
  readonly build: string;
  readonly version: number;
  readonly at: string;
  readonly by: string;
  readonly deed: string;
  readonly bench: string | null;
}

/** Opens the records of this bench to be sent from: whoever sends many entries asks the same of them each time. */
export function openStock(database: Database, own: string): Stock {
  const bodyOf = stretchReader(database, own);
  const photoOf = photoReader(database);
  return {
    linesAfter: lineReader(database),
    async gathered(line, shared) {
      const brings = bringsSchema.safeParse(line.deed).data;
      const named = brings?.how?.stretch;
      const stretch =
        named === undefined
          ? undefined
          : sharedStretch({ ...named, bench: named.bench ?? line.wrote ?? own }, shared, bodyOf);
      if (stretch !== undefined) await afterEvents();
      return {
        ...line,
        body: packEntry(line.json),
        stretch,
        photo: brings?.kind === 'photographed' ? photoOf(brings.photo) : undefined,
        certificate: brings?.kind === 'certified' ? certificateOf(database.folder, brings.sha256) : undefined,
      };
    },
  };
}

function lineReader({ sql }: Database): Stock['linesAfter'] {
  const after = sql.prepare<[number, number], Row>(
    'SELECT line, id, build, version, at, by, deed, bench FROM notebook_entry WHERE line > ? ORDER BY line LIMIT ?',
  );
  const before = sql
    .prepare<[string, number], number>('SELECT count(*) FROM notebook_entry WHERE build = ? AND line < ?')
    .pluck();
  return (line, most) => {
    const places = new Map<string, number>();
    return after.all(line, most).map((row): Line => {
      const place = places.get(row.build) ?? before.get(row.build, row.line) ?? 0;
      places.set(row.build, place + 1);
      return lineOf(row, place);
    });
  };
}

function lineOf({ line, id, build, version, at, by, deed: text, bench }: Row, place: number): Line {
  const deed = JSON.parse(text) as unknown;
  const json = canonicalJson({ id, version, at, by, deed });
  return { line, id, build, json, sha256: hashOf(json), place, wrote: bench, deed };
}

export const hashOf = (bytes: string | Uint8Array): Buffer => createHash('sha256').update(bytes).digest();

/** What an entry brings with it, read loosely: one of a later version is sent as it is, and read by who can. */
const bringsSchema = z.object({
  kind: z.string(),
  how: z
    .object({ kind: z.literal('streamed'), stretch: stretchSchema })
    .optional()
    .catch(undefined),
  photo: z.object({ sha256: z.string(), width: z.int(), height: z.int() }).optional().catch(undefined),
  sha256: z.string().optional().catch(undefined),
});

/** Stretches that go in one load: entries that rest on the same one share it. */
export type Shared = Map<string, SentStretch | undefined>;

type StretchReader = (named: StretchNamed) => SentStretch | undefined;

function sharedStretch(named: StretchNamed, shared: Shared, read: StretchReader): SentStretch | undefined {
  const { bench, gauge, from, to } = named;
  const name = JSON.stringify([bench, gauge, from, to]);
  const stretch = shared.has(name) ? shared.get(name) : read({ bench, gauge, from, to });
  shared.set(name, stretch);
  return stretch;
}

/** Reads stretches to be sent; undefined where the journal has none of its rows any more. */
function stretchReader(database: Database, own: string): StretchReader {
  const pages = storedReader(database.sql);
  const foreign = openStretches(database, own);
  return ({ bench, gauge, from, to }) => {
    const { rows, sha256 } =
      bench === own ? hashed(pages(gauge, from, to)) : takenIn(foreign.lines({ bench, gauge, from, to }), gauge);
    if (rows.length === 0) return undefined;
    return { bench, gauge, from, to, rows: rows.length, sha256, body: packStretch(rows) };
  };
}

interface Hashed {
  readonly rows: readonly StoredRow[];
  /** SHA-256 of the rows as lines of CSV, as certificates have it. */
  readonly sha256: Buffer;
}

function hashed(pages: Iterable<readonly StoredRow[]>): Hashed {
  const hash = createHash('sha256');
  const rows: StoredRow[] = [];
  for (const page of pages) {
    let lines = '';
    for (const row of page) {
      rows.push(row);
      lines += `${storedLine(row)}\n`;
    }
    hash.update(lines);
  }
  return { rows, sha256: hash.digest() };
}

/** Whatever the gauge's number here: in the archive it has another. */
const anyNumber = 1;

function takenIn(lines: readonly string[], gauge: string): Hashed {
  const rows = rowsFromCsv(lines, gauge);
  return hashed(rows.ok ? [rows.value.map((row) => storedFrom(row, anyNumber))] : []);
}

function photoReader(
  database: Database,
): (photo: { sha256: string; width: number; height: number } | undefined) => SentEntry['photo'] {
  const store = openPhotos(database);
  return (photo) => {
    if (photo === undefined) return undefined;
    const [jpeg, at] = [store.read(photo.sha256), store.keptAt(photo.sha256)];
    if (jpeg === undefined || at === undefined) return undefined;
    return { sha256: hashOf(jpeg), width: photo.width, height: photo.height, at, jpeg };
  };
}

/** The paper of a certificate, by the first signs of its data's hash, which end its name. */
function certificateOf(folder: string, sha256: string | undefined): SentEntry['certificate'] {
  const papers = join(folder, 'certificates');
  if (sha256 === undefined || !existsSync(papers)) return undefined;
  const name = readdirSync(papers).find((file) => file.endsWith(`-${sha256.slice(0, 8)}.pdf`));
  if (name === undefined) return undefined;
  const pdf = readFileSync(join(papers, name));
  return { name, sha256: hashOf(pdf), pdf };
}
