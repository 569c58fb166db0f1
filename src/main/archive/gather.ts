import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate as afterEvents } from 'node:timers/promises';
import { z } from 'zod';
import { stretchSchema } from '../../shared/job/records/measurement.ts';
import { canonicalJson } from '../certificate/hash.ts';
import { csvLine, rowsFromCsv } from '../journal/csv.ts';
import { readPages } from '../journal/readRows.ts';
import type { JournalRow } from '../journal/entry.ts';
import type { Database } from '../store/database.ts';
import { openPhotos } from '../store/photos.ts';
import { openStretches, type StretchNamed } from '../store/stretches.ts';
import { packEntry, packStretch } from './hold.ts';
import type { SentEntry, SentStretch } from './sending.ts';

/** Where things to be sent come from: the records, read beside a bench at work. */
export interface Stock {
  readonly database: Database;
  /** This bench's id. */
  readonly own: string;
}

/** An entry by its line, before anything is fetched for it. */
export interface Line {
  readonly line: number;
  readonly id: string;
  readonly build: string;
  readonly json: string;
  readonly sha256: Buffer;
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

/** The next lines of all notebooks behind a line, in order. */
export function linesAfter({ database }: Stock, after: number, most: number): readonly Line[] {
  return database.sql
    .prepare<[number, number], Row>(
      'SELECT line, id, build, version, at, by, deed, bench FROM notebook_entry WHERE line > ? ORDER BY line LIMIT ?',
    )
    .all(after, most)
    .map(({ line, id, build, version, at, by, deed: text, bench }) => {
      const deed = JSON.parse(text) as unknown;
      const json = canonicalJson({ id, version, at, by, deed });
      return { line, id, build, json, sha256: hashOf(json), wrote: bench, deed };
    });
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

/** An entry with everything it rests on. Readings are read a page at a time, and others have their turn after each stretch. */
export async function gathered(stock: Stock, line: Line, shared: Shared): Promise<SentEntry> {
  const { database } = stock;
  const brings = bringsSchema.safeParse(line.deed).data;
  const place = database.sql
    .prepare<[string, number], number>('SELECT count(*) FROM notebook_entry WHERE build = ? AND line < ?')
    .pluck()
    .get(line.build, line.line);
  const named = brings?.how?.stretch;
  const stretch =
    named === undefined
      ? undefined
      : sharedStretch(stock, { ...named, bench: named.bench ?? line.wrote ?? stock.own }, shared);
  if (stretch !== undefined) await afterEvents();
  return {
    ...line,
    place: place ?? 0,
    body: packEntry(line.json),
    stretch,
    photo: brings?.kind === 'photographed' ? photoOf(database, brings.photo) : undefined,
    certificate: brings?.kind === 'certified' ? certificateOf(database.folder, brings.sha256) : undefined,
  };
}

function sharedStretch(stock: Stock, named: StretchNamed, shared: Shared): SentStretch | undefined {
  const { bench, gauge, from, to } = named;
  const name = JSON.stringify([bench, gauge, from, to]);
  const stretch = shared.has(name) ? shared.get(name) : sentStretch(stock, named);
  shared.set(name, stretch);
  return stretch;
}

/** A stretch as it is sent; undefined where the journal has none of its rows any more. */
function sentStretch({ database, own }: Stock, { bench, gauge, from, to }: StretchNamed): SentStretch | undefined {
  const { rows, sha256 } =
    bench === own
      ? hashed(readPages(database.sql, gauge, from, to, true))
      : takenIn(openStretches(database, own).lines({ bench, gauge, from, to }), gauge);
  if (rows.length === 0) return undefined;
  return { bench, gauge, from, to, rows: rows.length, sha256, body: packStretch(rows) };
}

interface Hashed {
  readonly rows: readonly JournalRow[];
  /** SHA-256 of the rows as lines of CSV, as certificates have it. */
  readonly sha256: Buffer;
}

function hashed(pages: Iterable<JournalRow>): Hashed {
  const hash = createHash('sha256');
  const rows: JournalRow[] = [];
  let lines: string[] = [];
  const flush = (): void => {
    hash.update(lines.join(''));
    lines = [];
  };
  for (const row of pages) {
    rows.push(row);
    lines.push(`${csvLine(row)}\n`);
    if (lines.length >= 1000) flush();
  }
  flush();
  return { rows, sha256: hash.digest() };
}

function takenIn(lines: readonly string[], gauge: string): Hashed {
  const rows = rowsFromCsv(lines, gauge);
  return rows.ok ? hashed(rows.value) : { rows: [], sha256: Buffer.alloc(0) };
}

function photoOf(
  database: Database,
  photo: { sha256: string; width: number; height: number } | undefined,
): SentEntry['photo'] {
  if (photo === undefined) return undefined;
  const store = openPhotos(database);
  const [jpeg, at] = [store.read(photo.sha256), store.keptAt(photo.sha256)];
  if (jpeg === undefined || at === undefined) return undefined;
  return { sha256: hashOf(jpeg), width: photo.width, height: photo.height, at, jpeg };
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
