import {
  appendFileSync,
  copyFileSync,
  existsSync,
  readdirSync,
  readFileSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { openBench } from '../../../src/main/bench/bench.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { databaseName, openDatabase } from '../../../src/main/store/database.ts';
import type { Problem } from '../../../src/shared/basics/result.ts';
import type { Notebook } from '../../../src/shared/contract/builds.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';

const by = 'A. Tester';
const builds = 5;
const entries = 25;
const readings = 3000;

/** A shop of five builds and three thousand readings, closed as it should be: one file. */
interface Shop {
  readonly folder: string;
  readonly notebooks: ReadonlyMap<string, Notebook>;
  readonly bytes: Buffer;
  readonly page: number;
}

async function shop(): Promise<Shop> {
  const folder = newFolder();
  const service = benchInNewFolder(undefined, folder);
  const notebooks = new Map<string, Notebook>();
  const ids: string[] = [];
  for (let n = 0; n < builds; n += 1)
    ids.push(valueOf(await service.answers['builds.start']({ title: `Build ${n}`, technician: by })).id);
  for (let n = 1; n < entries; n += 1)
    for (const build of ids) {
      const deed = { kind: 'noted', topic: 'note', text: `Note ${n} of ${build} ${'.'.repeat(n)}` } as const;
      notebooks.set(build, valueOf(await service.answers['builds.write']({ build, by, deed })));
    }
  await service.close();
  const sql = new Sqlite(join(folder, databaseName));
  sql.exec(`
    INSERT INTO journal_gauge (gauge) VALUES ('dial');
    WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ${readings})
    INSERT INTO journal (gauge, kind, t, at, value, unit, raw) SELECT 1, 'reading', i, i, i / 1000.0, 'mm', zeroblob(8) FROM n;
    PRAGMA wal_checkpoint(TRUNCATE)`);
  const page = Number(sql.pragma('page_size', { simple: true }));
  sql.close();
  return { folder, notebooks, bytes: readFileSync(join(folder, databaseName)), page };
}

/** The numbers of the pages of a table or index, leaves or not, as SQLite itself counts them. */
function pagesOf(folder: string, name: string, kind: 'leaf' | 'internal'): readonly number[] {
  const sql = new Sqlite(join(folder, databaseName), { readonly: true });
  const pages = sql.prepare('SELECT pageno FROM dbstat WHERE name = ? AND pagetype = ?').pluck().all(name, kind);
  sql.close();
  return pages.map(Number);
}

interface Opened {
  readonly whole: ReadonlyMap<string, Notebook>;
  readonly unreadable: readonly string[];
  readonly warnings: readonly Problem[];
  readonly readings: number;
}

/** What a bench shows of a folder; or why it does not open. */
async function shown(folder: string): Promise<Opened | string> {
  const bench = openBench({ folder, clock: systemClock, version: 'test' });
  if (!bench.ok) return bench.problem.kind;
  const { answers } = bench.value;
  const whole = new Map<string, Notebook>();
  for (const { id } of valueOf(await answers['builds.list']({}))) {
    // A record bent in its place is met when its build is opened, and its build stands among the unreadable from then on.
    const notebook = await answers['builds.read']({ build: id });
    if (notebook.ok) whole.set(id, notebook.value);
  }
  const unreadable = valueOf(await answers['builds.unreadable']({})).map(({ id }) => id);
  const heard = valueOf(await answers['gauges.heard']({ gauge: 'dial', from: 1, to: 2 ** 40 }));
  const { warnings } = valueOf(await answers['bench.about']({}));
  await bench.value.close();
  return { whole, unreadable, warnings, readings: heard.length };
}

/** A copy of the shop in which something was spoilt. */
function spoilt(from: Shop, spoil: (bytes: Buffer) => Buffer): { readonly folder: string; readonly bytes: Buffer } {
  const folder = newFolder();
  for (const name of ['axlewright.last', 'axlewright.key']) copyFileSync(join(from.folder, name), join(folder, name));
  const bytes = spoil(Buffer.from(from.bytes));
  writeFileSync(join(folder, databaseName), bytes);
  return { folder, bytes };
}

const spoiltPage = (from: Shop, page: number, value = 0): ReturnType<typeof spoilt> =>
  spoilt(from, (bytes) => bytes.fill(value, (page - 1) * from.page, page * from.page));

function keptCopy(folder: string): Buffer | undefined {
  const kept = readdirSync(folder).filter((name) => name.startsWith('damaged-'));
  expect(kept.length).toBeLessThanOrEqual(1);
  return kept[0] === undefined ? undefined : readFileSync(join(folder, kept[0], databaseName));
}

/**
 * What is shown as whole is what was written. Where the sentence says that nothing tells any more which builds lack entries, one
 * may be shorter than it was, but holds nothing else.
 */
function expectTrue({ whole: notebooks, warnings }: Opened): void {
  const maybeShort = warnings.some(({ sentence }) => sentence.includes('which builds lack entries'));
  for (const [id, notebook] of notebooks) {
    const written = whole.notebooks.get(id)?.entries ?? [];
    if (maybeShort) expect(written).toEqual(expect.arrayContaining(notebook.entries));
    else expect(notebook.entries).toEqual(written);
  }
}

let whole: Shop;
beforeAll(async () => {
  whole = await shop();
}, 120_000);

describe('a damaged database', () => {
  it('gives out every build whose entries lie elsewhere, and shows the others as damaged', async () => {
    const [leaf] = pagesOf(whole.folder, 'notebook_entry', 'leaf').slice(1);
    const { folder, bytes } = spoiltPage(whole, leaf ?? 0);
    const seen = await shown(folder);
    if (typeof seen === 'string') throw new Error(seen);
    expectTrue(seen);
    expect(seen.whole.size + seen.unreadable.length).toBe(builds);
    expect(seen.unreadable.length).toBeGreaterThan(0);
    expect(seen.readings).toBe(readings);
    expect(seen.warnings[0]).toMatchObject({ kind: 'records-salvaged' });
    expect(seen.warnings[0]?.sentence).toMatch(/Lost, at most: \d+ entries of notebooks/u);
    expect(keptCopy(folder)?.equals(bytes)).toBe(true);
    const again = await shown(folder);
    expect(again).toMatchObject({ readings });
    expect(typeof again === 'string' ? [] : again.warnings.map(({ kind }) => kind)).not.toContain('records-salvaged');
  });

  it('loses no more readings than lay on the damaged page', async () => {
    const leaves = pagesOf(whole.folder, 'journal', 'leaf');
    const { folder } = spoiltPage(whole, leaves[Math.floor(leaves.length / 2)] ?? 0, 0x5a);
    const seen = await shown(folder);
    if (typeof seen === 'string') throw new Error(seen);
    expect(seen.whole).toEqual(whole.notebooks);
    expect(seen.readings).toBeLessThan(readings);
    expect(seen.readings).toBeGreaterThan(readings - (2 * readings) / leaves.length);
  });

  it('whose index alone is damaged gives out everything', async () => {
    const [leaf] = pagesOf(whole.folder, 'notebook_entry_build', 'leaf');
    const seen = await shown(spoiltPage(whole, leaf ?? 0).folder);
    expect(seen).toMatchObject({ whole: whole.notebooks, unreadable: [], readings });
    expect(typeof seen === 'string' ? '' : seen.warnings[0]?.sentence).toMatch(/Every row could be read/u);
  });

  it.each([0.6, 0.9, 0.999])('cut off after %f of it gives out what lies before the cut', async (share) => {
    const cut = Math.floor(whole.bytes.length * share);
    const { folder, bytes } = spoilt(whole, (all) => all.subarray(0, cut));
    const seen = await shown(folder);
    if (typeof seen === 'string') throw new Error(seen);
    expectTrue(seen);
    expect(seen.whole.size + seen.unreadable.length + seen.readings).toBeGreaterThan(0);
    expect(seen.warnings.map(({ kind }) => kind)).toContain('records-salvaged');
    expect(keptCopy(folder)?.equals(bytes)).toBe(true);
  });

  it('with one bent record shows that build as damaged, its title in the sentence, and every other as it was', async () => {
    const [id] = [...whole.notebooks.keys()].slice(3);
    const { folder } = spoilt(whole, (bytes) => {
      const at = bytes.indexOf(`{"kind":"noted","topic":"note","text":"Note 7 of ${id}`);
      expect(at).toBeGreaterThan(0);
      bytes[at] = 0x7a;
      return bytes;
    });
    const seen = await shown(folder);
    if (typeof seen === 'string') throw new Error(seen);
    expect(seen.unreadable).toEqual([id]);
    expect(seen.whole.size).toBe(builds - 1);
    expect(seen.warnings.some(({ sentence }) => sentence.includes('Build 3'))).toBe(true);
  });

  it('is refused and left alone by a reader, and by a bench that can take nothing out of it', async () => {
    const [leaf] = pagesOf(whole.folder, 'notebook_entry', 'leaf').slice(1);
    const read = spoiltPage(whole, leaf ?? 0);
    const reader = openDatabase(read.folder, systemClock, { as: 'reader' });
    expect(reader).toMatchObject({ ok: false, problem: { kind: 'database-corrupt' } });
    expect(readFileSync(join(read.folder, databaseName)).equals(read.bytes)).toBe(true);
    const hopeless = spoilt(whole, (bytes) => bytes.fill(0, whole.page));
    expect(await shown(hopeless.folder)).toBe('database-corrupt');
    expect(readFileSync(join(hopeless.folder, databaseName)).equals(hopeless.bytes)).toBe(true);
    expect(keptCopy(hopeless.folder)).toBeUndefined();
  });

  it('cut off before the list of its tables, which lies behind their first pages, is refused and left alone', async () => {
    const [listed] = pagesOf(whole.folder, 'sqlite_schema', 'leaf');
    const { folder, bytes } = spoilt(whole, (all) => all.subarray(0, ((listed ?? 0) - 1) * whole.page));
    expect(await shown(folder)).toBe('database-corrupt');
    expect(readFileSync(join(folder, databaseName)).equals(bytes)).toBe(true);
  });

  it('takes over what lay in the log alone', async () => {
    const [leaf] = pagesOf(whole.folder, 'journal', 'leaf').slice(5);
    const { folder } = spoiltPage(whole, leaf ?? 0);
    const file = join(folder, databaseName);
    const sql = new Sqlite(file);
    sql.pragma('wal_autocheckpoint = 0');
    sql.exec("INSERT INTO drawer_revision (at, record) VALUES ('', '{\"sizes\":[]}')");
    const log = readFileSync(`${file}-wal`);
    sql.close();
    const { folder: killed } = spoiltPage(whole, leaf ?? 0);
    writeFileSync(join(killed, `${databaseName}-wal`), log);
    // The end of a log that was being written when power went: noise.
    appendFileSync(join(killed, `${databaseName}-wal`), Buffer.alloc(5000, 0x33));
    const opened = valueOf(openDatabase(killed, systemClock));
    expect(opened.sql.prepare('SELECT count(*) FROM drawer_revision').pluck().get()).toBe(1);
    opened.close();
    const kept = readdirSync(killed).find((name) => name.startsWith('damaged-')) ?? '';
    expect(existsSync(join(killed, kept, `${databaseName}-wal`))).toBe(true);
    expect(readdirSync(join(killed, kept)).toSorted()).toEqual([
      databaseName,
      `${databaseName}-wal`,
      'what-was-saved.txt',
    ]);
  });

  it('whatever pages are spoilt: opened with its builds true or named, or refused and left alone', async () => {
    const pages = Math.floor(whole.bytes.length / whole.page);
    const spoiling = fc.record({
      pages: fc.array(fc.integer({ min: 2, max: pages }), { minLength: 1, maxLength: 4 }),
      value: fc.constantFrom(0, 0x5a, 0xff),
      cut: fc.option(fc.integer({ min: 2, max: pages }), { nil: undefined }),
    });
    await fc.assert(
      fc.asyncProperty(spoiling, async ({ pages: bad, value, cut }) => {
        const { folder, bytes } = spoilt(whole, (all) => {
          for (const page of bad) all.fill(value, (page - 1) * whole.page, page * whole.page);
          return cut === undefined ? all : all.subarray(0, cut * whole.page);
        });
        const seen = await shown(folder);
        if (typeof seen === 'string') {
          expect(seen).toBe('database-corrupt');
          expect(readFileSync(join(folder, databaseName)).equals(bytes)).toBe(true);
          return;
        }
        expectTrue(seen);
        if (!bytes.equals(whole.bytes) && seen.warnings.length === 0)
          expect({ whole: seen.whole, readings: seen.readings }).toEqual({ whole: whole.notebooks, readings });
      }),
      { numRuns: 8 },
    );
  }, 240_000);
});

describe('a file too short to be one', () => {
  it.each([1, 99, 511])('of %d bytes is refused and left alone', (size) => {
    const { folder } = spoilt(whole, (bytes) => bytes);
    truncateSync(join(folder, databaseName), size);
    const opened = openDatabase(folder, systemClock);
    expect(opened.ok ? 'opened' : opened.problem.kind).toBe('records-missing');
    expect(readFileSync(join(folder, databaseName)).length).toBe(size);
  });
});
