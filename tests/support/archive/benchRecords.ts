import { createHash } from 'node:crypto';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { systemClock } from '../../../src/main/clock.ts';
import { openJournal } from '../../../src/main/journal/journal.ts';
import { type Database, openDatabase } from '../../../src/main/store/database.ts';
import { openIdentity } from '../../../src/main/store/identity.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import { openPhotos } from '../../../src/main/store/photos.ts';
import { type Deed, type Entry, entrySchema } from '../../../src/shared/job/records/notebook.ts';
import { valueOf } from '../bench/open.ts';
import { measuredNotebook, rockedRows } from '../records/issued.ts';

/** The records of a bench of this id, made where there are none. */
export function withRecords<T>(folder: string, bench: string, use: (database: Database) => T): T {
  const database = valueOf(openDatabase(folder, systemClock));
  try {
    valueOf(openIdentity(database, () => bench));
    return use(database);
  } finally {
    database.close();
  }
}

export const benchFolder = (): string => mkdtempSync(join(tmpdir(), 'axlewright-bench-'));

const shape = JSON.stringify(measuredNotebook({ trials: 1, stations: 4 }));

interface Written {
  readonly build: string;
  readonly title?: string;
  /** Bytes of its photo; none without. */
  readonly photo?: Buffer;
  /** Hours by which the clock of this bench is off. */
  readonly clockOff_h?: number;
}

/** Writes a whole build into the records: rows of the journal, a photo, and entries whose ids nobody else has. */
export function writeBuild(
  database: Database,
  { build, title = build, photo, clockOff_h = 0 }: Written,
): readonly Entry[] {
  const first = appendRows(database);
  const written = entriesOf({ build, title, first, sessions: 1, clockOff_h });
  const all = photo === undefined ? written : [...written, photographed(database, build, written, photo)];
  const notebooks = openNotebooks(database);
  for (const entry of all) valueOf(notebooks.add(build, entry));
  return all;
}

/** Rows of one rocking session behind those that are there. @returns the number of the first */
function appendRows(database: Database): number {
  const journal = openJournal(database);
  const rows = rockedRows.map(({ seq: _seq, ...row }) => journal.append(row));
  journal.close();
  return rows[0] ?? 0;
}

interface Shaped extends Required<Pick<Written, 'build' | 'title' | 'clockOff_h'>> {
  readonly first: number;
  readonly sessions: number;
}

function entriesOf({ build, title, first, sessions, clockOff_h }: Shaped): readonly Entry[] {
  const own = shape
    .replaceAll(/"e(\d+)"/gu, `"${build}-e$1"`)
    .replaceAll('"from":1,"to":900', `"from":${first},"to":${first + sessions * (rockedRows.length + 1) - 2}`);
  return entrySchema
    .array()
    .parse(JSON.parse(own))
    .map((entry) => {
      const at = new Date(Date.parse(entry.at) + clockOff_h * 3_600_000).toISOString();
      const deed: Deed = entry.deed.kind === 'started' ? { ...entry.deed, title } : entry.deed;
      return { ...entry, at, deed };
    });
}

function photographed(database: Database, build: string, entries: readonly Entry[], jpeg: Buffer): Entry {
  const sha256 = createHash('sha256').update(jpeg).digest('hex');
  const photo = { sha256, width: 4, height: 3 };
  valueOf(openPhotos(database).keep(photo, jpeg, '2026-01-05T09:00:00.000Z'));
  const assembly = entries.find(({ deed }) => deed.kind === 'assembled')?.id ?? '';
  const at = entries.at(-1)?.at ?? '';
  return {
    id: `${build}-photo`,
    version: 1,
    at,
    by: 'A. Tester',
    deed: { kind: 'photographed', assembly, photo, from: 'file' },
  };
}

/** Many builds at once, each resting on so many rocking sessions, for figures: one write for all of them. @returns rows of readings each */
export function writeManyBuilds(database: Database, count: number, sessions: number): number {
  const many = Array.from({ length: count }, (_, n) => {
    const first = appendRows(database);
    for (let more = 1; more < sessions; more += 1) appendRows(database);
    const build = `many-${n}`;
    const title = `Rear axle, job ${4000 + n}`;
    return { build, entries: entriesOf({ build, title, first, sessions, clockOff_h: 0 }) };
  });
  const notebooks = openNotebooks(database);
  valueOf(
    database.write(() => {
      for (const { build, entries } of many)
        notebooks.takeIn(
          build,
          entries.map((entry) => ({ entry, bench: null })),
        );
    }),
  );
  return sessions * rockedRows.length;
}
