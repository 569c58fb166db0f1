import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { systemClock } from '../../../src/main/clock.ts';
import { catchUp, noteBehind } from '../../../src/main/store/catchUp.ts';
import { databaseName, openDatabase } from '../../../src/main/store/database.ts';
import { openBuildList } from '../../../src/main/store/buildList.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import { wordsIn } from '../../../src/main/store/soughtIn.ts';
import { shopOverTime } from '../../../src/main/store/shopOverTime.ts';
import { folded } from '../../../src/shared/job/shop/folded.ts';
import type { Deed, Notebook } from '../../../src/shared/job/records/notebook.ts';
import { temporaryFolder } from '../../support/folder.ts';
import { wholeNotebook } from '../../support/records/wholeBuild.ts';
import { certified, notebookOf, twoTrials } from '../../support/records/finished.ts';
import { newFolder, benchInNewFolder, valueOf } from '../../support/bench/open.ts';

function shop(folder = temporaryFolder()) {
  const database = valueOf(openDatabase(folder, systemClock));
  onTestFinished(() => database.close());
  return { folder, database, notebooks: openNotebooks(database), buildList: openBuildList(database) };
}

type Shop = ReturnType<typeof shop>;

/** Writes a build entry by entry; ids are made its own. */
function write({ notebooks }: Shop, { id, entries }: Notebook): void {
  for (const entry of entries) {
    const own = (other: string): string => `${id}-${other}`;
    const deed =
      'assembly' in entry.deed && typeof entry.deed.assembly === 'string'
        ? { ...entry.deed, assembly: own(entry.deed.assembly) }
        : entry.deed;
    const struck = deed.kind === 'struck' ? { ...deed, entry: own(deed.entry) } : deed;
    expect(notebooks.add(id, { ...entry, id: own(entry.id), deed: struck as Deed })).toMatchObject({ ok: true });
  }
}

const note = (topic: 'customer' | 'plate' | 'note', text: string): Deed => ({ kind: 'noted', topic, text });
const ids = (found: readonly { readonly build: string }[]): readonly string[] => found.map(({ build }) => build);

function threeBuilds(): Shop {
  const at = shop();
  write(
    at,
    notebookOf(
      'b1',
      {},
      note('customer', 'M. Ostrander'),
      note('plate', 'AB-12 CD'),
      ...twoTrials({ makeUp: { axleName: 'Rear 205' } }),
    ),
  );
  write(
    at,
    notebookOf(
      'b2',
      {},
      note('customer', 'm. ostrander'),
      ...twoTrials({ makeUp: { axleName: 'Front 180' } }),
      certified,
    ),
  );
  write(at, notebookOf('b3', {}, note('note', 'hums at 60'), { kind: 'laid', where: 'put-away' }));
  return at;
}

describe('the list of builds', () => {
  it('finds words in any order, short ones too, and nothing where one of them is missing', () => {
    const { buildList } = threeBuilds();
    const found = (words: string): readonly string[] => ids(buildList.page({ words }, 50));
    expect(found('')).toEqual(['b3', 'b2', 'b1']);
    expect(found('ostrander m.')).toEqual(['b2', 'b1']);
    expect(found('ab12cd')).toEqual(['b1']);
    expect(found('AB-12')).toEqual(['b1']);
    expect(found('60')).toEqual(['b3']);
    expect(found('60 hums')).toEqual(['b3']);
    expect(found('ostrander hums')).toEqual([]);
    expect(found('"')).toEqual([]);
    expect(found('ost" OR "hum')).toEqual([]);
  });

  it('finds a word of one or two letters by the index as by going through every build, at the end of the words too', () => {
    const at = shop();
    const texts = ['Gehäuse 齒輪', 'ab', "it's 4 o'clock", 'x', '"q"', 'ends in qz', '_%', 'end\u00e9 Z'];
    for (const [n, text] of texts.entries()) write(at, notebookOf(`b${n}`, {}, note('note', text)));
    const { sql } = at.database;
    const short = wordsIn(sql);
    const found = (words: string, byIndex: boolean): unknown => {
      const [{ where, values } = { where: '1', values: [] }] = short.where(words, byIndex);
      return sql
        .prepare(`SELECT build FROM build_summary WHERE ${where} ORDER BY build`)
        .pluck()
        .all(...values);
    };
    const all = texts.flatMap((text) => {
      const signs = Array.from(folded(text));
      return [...signs, ...signs.map((sign, index) => sign + (signs[index + 1] ?? ''))];
    });
    for (const word of [...all, 'qx', 'zz', '\u{10fffe}']) {
      if (word.trim() !== word || word === '') continue;
      expect(found(word, true), word).toEqual(found(word, false));
    }
    expect(found('qz', true)).toEqual(['b5']);
    expect(found('齒', true)).toEqual(['b0']);
    expect(found('qx', true)).toEqual([]);
  });

  it('filters by how far a build has come and by what builds have in common', () => {
    const { buildList } = threeBuilds();
    expect(ids(buildList.page({ which: 'unfinished' }, 50))).toEqual(['b2', 'b1']);
    expect(ids(buildList.page({ which: 'put-away' }, 50))).toEqual(['b3']);
    expect(ids(buildList.page({ alike: { build: 'b1', in: 'customer' } }, 50))).toEqual(['b2', 'b1']);
    expect(ids(buildList.page({ alike: { build: 'b1', in: 'axle' } }, 50))).toEqual(['b1']);
    expect(ids(buildList.page({ alike: { build: 'b3', in: 'customer' } }, 50))).toEqual([]);
    expect(buildList.counts()).toEqual({
      all: 3,
      'on-the-bench': 2,
      'put-away': 1,
      'thrown-away': 0,
      unfinished: 2,
      certified: 0,
      'comeback-due': 0,
      unread: 0,
    });
  });

  it('counts a certified build once: as certified where nothing is missing, as unfinished where something is', () => {
    const at = threeBuilds();
    write(
      at,
      notebookOf(
        'b4',
        {},
        ...wholeNotebook({ trials: 1, stations: 4 })
          .slice(1)
          .map(({ deed }) => deed),
        certified,
      ),
    );
    expect(ids(at.buildList.page({ which: 'certified' }, 50))).toEqual(['b4']);
    expect(ids(at.buildList.page({ which: 'unfinished' }, 50))).toEqual(['b2', 'b1']);
    expect(at.buildList.counts()).toMatchObject({ 'on-the-bench': 3, unfinished: 2, certified: 1 });
  });

  it('goes a page at a time behind the last one', () => {
    const { buildList } = threeBuilds();
    expect(ids(buildList.page({}, 2))).toEqual(['b3', 'b2']);
    expect(ids(buildList.page({}, 2, 'b2'))).toEqual(['b1']);
    expect(ids(buildList.page({}, 2, 'nobody'))).toEqual([]);
  });

  it('gives the newest spec sheet of each name', () => {
    const { buildList } = threeBuilds();
    expect(buildList.sheets().map(({ name }) => name)).toEqual(['Invented axle, 205 mm ring gear']);
  });
});

/** Everything the list knows, as it lies in the file. */
const everything = ({ database: { sql } }: Shop): unknown => [
  sql
    .prepare('SELECT * FROM build_summary ORDER BY build')
    .all()
    .map((row) => ({ ...(row as object), number: 0 })),
  sql.prepare('SELECT * FROM build_sheet ORDER BY build, name').all(),
  ['ostrander', 'hums', 'rear', 'e1'].map((word) =>
    sql.prepare('SELECT count(*) FROM build_words WHERE build_words MATCH ?').pluck().get(`"${word}  "`.trim()),
  ),
];

describe('summaries', () => {
  it('made entry by entry are those made from the whole notebook, after any of them were lost', async () => {
    const at = threeBuilds();
    write(at, notebookOf('b4', {}, note('note', 'first'), { kind: 'struck', entry: 'e1' }, note('note', 'second')));
    const before = everything(at);
    at.database.sql.exec('DELETE FROM build_summary; DELETE FROM build_sheet; DELETE FROM build_words');
    noteBehind(at.database);
    expect(at.buildList.counts()).toMatchObject({ all: 4, unread: 4 });
    const end = catchUp(at);
    await expect.poll(() => at.buildList.counts().unread).toBe(0);
    end();
    expect(everything(at)).toEqual(before);
  });

  it('of another version are made anew', async () => {
    const at = threeBuilds();
    const before = everything(at);
    at.database.sql.exec("UPDATE build_summary SET version = 0, record = '{}'");
    expect(at.buildList.page({}, 50).every(({ summary }) => summary === undefined)).toBe(true);
    const end = catchUp(at);
    await expect.poll(() => at.buildList.counts().unread).toBe(0);
    end();
    expect(everything(at)).toEqual(before);
  });

  it('are not there where their entry is not', () => {
    const at = threeBuilds();
    at.database.sql.pragma(`max_page_count = ${String(at.database.sql.pragma('page_count', { simple: true }))}`);
    // The free room of the last pages is filled first; then the disk takes no more.
    for (let n = 0; ; n += 1) {
      const before = everything(at);
      const read = at.notebooks.read('b1');
      const deed = note('note', `${n} ${'lost '.repeat(700)}`);
      const added = at.notebooks.add('b1', {
        id: `x${n}`,
        version: 1,
        at: '2026-01-05T09:00:00.000Z',
        by: 'A. Tester',
        deed,
      });
      if (added.ok) continue;
      expect(added.problem.kind).toBe('disk-full');
      expect(everything(at)).toEqual(before);
      expect(at.notebooks.read('b1')).toEqual(read);
      return;
    }
  });

  it('are searched, and entries written, although the index of words is damaged', async () => {
    const at = threeBuilds();
    const before = everything(at);
    at.database.sql.unsafeMode(true).exec("UPDATE build_words_data SET block = x'00ff00ff00ff' WHERE id > 10");
    expect(ids(at.buildList.page({ words: 'ostrander' }, 50))).toEqual(['b2', 'b1']);
    write(at, notebookOf('b5', {}, note('note', 'written all the same')));
    expect(at.notebooks.read('b5')).toMatchObject({ ok: true });
    at.database.sql.exec("DELETE FROM notebook_entry WHERE build = 'b5'; DELETE FROM build_summary WHERE build = 'b5'");
    const end = catchUp(at);
    await expect.poll(() => at.buildList.counts().unread).toBe(0);
    end();
    expect(everything(at)).toEqual(before);
  });

  it('are all made anew however long it takes to find those that are behind', async () => {
    const at = threeBuilds();
    at.database.sql.exec('UPDATE build_summary SET version = 0');
    // As in a shop of ten thousand builds: the search alone takes longer than a step may.
    const behind: typeof at.buildList.behind = (limit, before) => {
      const began = performance.now();
      while (performance.now() - began < 10);
      return at.buildList.behind(limit, before);
    };
    const end = catchUp({ ...at, buildList: { ...at.buildList, behind } });
    await expect.poll(() => at.buildList.counts().unread).toBe(0);
    end();
  });

  it('are made by the bench for builds that another hand wrote, while it is asked for them', async () => {
    const folder = newFolder();
    await benchInNewFolder(undefined, folder).close();
    const sql = new Sqlite(join(folder, databaseName));
    sql.exec(`
      WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 120)
      INSERT INTO notebook_entry (id, build, version, at, by, deed) SELECT 'e' || i, 'b' || i, 1, '2026-01-01T00:00:00.000Z',
        'A. Tester', '{"kind":"started","title":"Build ' || i || '","technician":"A. Tester"}' FROM n`);
    sql.close();
    const service = benchInNewFolder(undefined, folder);
    onTestFinished(async () => void (await service.close()));
    const first = valueOf(await service.answers['builds.list']({}));
    expect(first.map(({ id }) => id)).toEqual(Array.from({ length: 50 }, (_, n) => `b${120 - n}`));
    await expect.poll(async () => valueOf(await service.answers['builds.counts']({})).unread).toBe(0);
    expect(valueOf(await service.answers['builds.list']({ words: 'build 17' })).map(({ id }) => id)).toEqual([
      'b117',
      'b17',
    ]);
  });
});

describe('the shop over time', () => {
  it('counts builds by the month they were begun in, trials of those that came right, and first changes that were', () => {
    const at = shop();
    write(at, notebookOf('b1', { month: 0 }, ...twoTrials()));
    write(at, notebookOf('b2', { month: 0 }, ...twoTrials().slice(0, 6)));
    write(at, notebookOf('b3', { month: 2 }, ...twoTrials()));
    write(at, notebookOf('b4', { month: 2 }, ...twoTrials(), { kind: 'laid', where: 'thrown-away' }));
    expect(shopOverTime(at.database)).toEqual([
      { month: '2026-01', builds: 2, right: 1, trials: 2, changed: 1, rightAfterOne: 1 },
      { month: '2026-03', builds: 1, right: 1, trials: 2, changed: 1, rightAfterOne: 1 },
    ]);
  });
});
