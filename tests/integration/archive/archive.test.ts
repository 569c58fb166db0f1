import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inProcess } from '../../support/commandLine.ts';
import {
  type ArchiveServer,
  archiveServer,
  asRole,
  benchRole,
  password,
  postgresBin,
} from '../../support/archive/server.ts';
import { benchFolder, withRecords, writeBuild } from '../../support/archive/benchRecords.ts';
import { rockedRows } from '../../support/records/issued.ts';

const jpeg = Buffer.from('ffd8ffe000104a464946ffd9', 'hex');

describe.skipIf(postgresBin() === undefined)('the archive of several benches', () => {
  let server: ArchiveServer;
  const [a, b] = [benchFolder(), benchFolder()];
  const archive = (deed: string, role: string, ...words: readonly string[]) =>
    inProcess('archive', deed, '--to', server.to(role), ...words);

  beforeAll(async () => {
    process.env['PGPASSWORD'] = password;
    server = await archiveServer({ benches: 4 });
    withRecords(a, 'bench-a', (database) => {
      writeBuild(database, { build: 'a1', title: 'Rear axle, job 4711, Müller', photo: jpeg });
      writeBuild(database, { build: 'a2', title: 'Front axle' });
    });
    withRecords(b, 'bench-b', (database) => writeBuild(database, { build: 'b1', title: 'Hoist axle' }));
  });
  afterAll(() => {
    delete process.env['PGPASSWORD'];
    server.end();
  });

  it('is made once by its owner, and names what it did', async () => {
    const first = await archive('migrate', 'archive_owner');
    expect(first).toMatchObject({ code: 0, answers: [{ steps: 6 }] });
    expect(await archive('migrate', 'archive_owner')).toMatchObject({ code: 0, answers: [{ steps: 6, taken: [] }] });
  });

  it('takes everything of a bench once', async () => {
    const waiting = await archive('status', benchRole(1), '--data', a);
    expect(waiting).toMatchObject({ code: 0, answers: [{ reachable: true, lastSent: { none: 'nothing sent yet' } }] });
    const sent = await archive('send', benchRole(1), '--once', '--data', a);
    expect(sent.said).toBe('');
    expect(sent).toMatchObject({ code: 0, answers: [{ readings: 2 * rockedRows.length, photos: 1, refused: [] }] });
    expect(waiting.answers[0]).toMatchObject({
      waiting: {
        entries: (sent.answers[0] as { entries: number }).entries,
        readings: 2 * rockedRows.length,
        photos: 1,
      },
    });
    const again = await archive('send', benchRole(1), '--once', '--data', a);
    expect(again.answers).toEqual([{ entries: 0, readings: 0, photos: 0, refused: [] }]);
    const after = await archive('status', benchRole(1), '--data', a);
    expect(after.answers).toMatchObject([{ waiting: { entries: 0, readings: 0, photos: 0 }, refused: [] }]);
  });

  it('finds builds of all benches by words, parts of words and misspelt words', async () => {
    await archive('send', benchRole(2), '--once', '--data', b);
    const found = async (...words: readonly string[]) =>
      (await archive('find', benchRole(2), ...words)).answers[0] as { id: string; bench: { id: string } }[];
    expect((await found('muller', '4711')).map(({ id }) => id)).toEqual(['a1']);
    expect((await found('ulle')).map(({ id }) => id)).toEqual(['a1']);
    expect((await found('axle')).map(({ id }) => id).toSorted()).toEqual(['a1', 'a2', 'b1']);
    expect((await found('hoits')).map(({ id, bench }) => [id, bench.id])).toEqual([['b1', 'bench-b']]);
    expect((await found('fr', 'ax')).map(({ id }) => id)).toEqual(['a2']);
    expect(await found('100%')).toEqual([]);
    expect(await found('_')).toEqual([]);
  });

  it('has one and two letters in its index exactly where they stand', async () => {
    const headings = [
      'rear axle, müller',
      '車軸デフ調整 12',
      'a',
      'ab ba',
      '',
      '100%_\\ x',
      "o'neill 😀😀",
      'задний мост',
    ];
    const pieces = [...new Set(headings.flatMap((heading) => piecesOf(heading)))];
    const sql = asRole(server, benchRole(2));
    const rows = await sql<{ heading: string; piece: string }[]>`
      SELECT heading, piece FROM jsonb_array_elements_text(${JSON.stringify(headings)}::text::jsonb) AS heading,
        jsonb_array_elements_text(${JSON.stringify(pieces)}::text::jsonb) AS piece
      WHERE short_pieces(heading) @> ARRAY[piece]`;
    await sql.end();
    const expected = headings.flatMap((heading) =>
      pieces.filter((piece) => heading.includes(piece)).map((piece) => ({ heading, piece })),
    );
    expect(new Set(rows.map((row) => JSON.stringify(row)))).toEqual(
      new Set(expected.map((row) => JSON.stringify(row))),
    );
    expect(rows.length).toBe(expected.length);
  });

  it('gives a foreign build back with its readings and photos, and with equal numbers', async () => {
    const home = await archive('fetch', benchRole(2), '--build', 'a1', '--data', b);
    expect(home.said).toBe('');
    expect(home).toMatchObject({ code: 0, answers: [{ build: 'a1', readings: rockedRows.length, already: 0 }] });
    const [mine, theirs] = await Promise.all([figuresOf(a, 'a1'), figuresOf(b, 'a1')]);
    expect(theirs).toEqual(mine);
    const again = await archive('fetch', benchRole(2), '--build', 'a1', '--data', b);
    expect(again.answers).toMatchObject([{ entries: 0, readings: 0 }]);
    const sent = await archive('send', benchRole(2), '--once', '--data', b);
    expect(sent.answers).toMatchObject([{ entries: 0, readings: 0, photos: 0, refused: [] }]);
  });

  it('lets a bench write as itself alone, and change or remove nothing', async () => {
    const sql = asRole(server, benchRole(2));
    try {
      const [other] = await sql<{ number: number }[]>`SELECT number FROM bench WHERE id = 'bench-a'`;
      await expect(sql`INSERT INTO build (id, sent_by) VALUES ('x', ${other?.number ?? 0})`).rejects.toThrow(
        /row-level security/u,
      );
      for (const table of [
        'bench',
        'bench_called',
        'build',
        'entry',
        'stretch',
        'photo',
        'certificate',
        'summary',
        'step',
        'archive',
      ]) {
        await expect(sql`DELETE FROM ${sql(table)}`).rejects.toThrow(/permission denied/u);
        const [column] = await sql<
          { name: string }[]
        >`SELECT column_name AS name FROM information_schema.columns WHERE table_name = ${table} LIMIT 1`;
        await expect(sql`UPDATE ${sql(table)} SET ${sql(column?.name ?? 'id')} = DEFAULT`).rejects.toThrow(
          /permission denied/u,
        );
      }
      await expect(sql`SELECT sum_up(1, ${other?.number ?? 0}, 99, '{}', '', '')`).rejects.toThrow(/privilege/u);
    } finally {
      await sql.end();
    }
  });

  it('refuses a role that belongs to another bench', async () => {
    const other = benchFolder();
    withRecords(other, 'bench-c', () => undefined);
    const ran = await archive('send', benchRole(1), '--once', '--data', other);
    expect(ran).toMatchObject({ code: 1, answers: [] });
    expect(ran.said).toContain('belongs to another bench (bench-a)');
  });

  it('refuses the same entry with other words, keeps both, and says so', async () => {
    const copy = benchFolder();
    withRecords(copy, 'bench-c', (database) => {
      writeBuild(database, { build: 'a2', title: 'Front axle, told otherwise' });
    });
    const sent = await archive('send', benchRole(3), '--once', '--data', copy);
    const { refused } = sent.answers[0] as { refused: { id: string; problem: { kind: string } }[] };
    expect(refused.map(({ id, problem }) => [id, problem.kind])).toContainEqual(['a2-e0', 'other-entry']);
    const fetched = await archive('fetch', benchRole(3), '--build', 'a2', '--data', benchFolderOf('bench-d'));
    expect(fetched.code).toBe(0);
    const status = await archive('status', benchRole(3), '--data', copy);
    expect((status.answers[0] as { refused: unknown[] }).refused.length).toBe(refused.length);
  });

  it('sends everything but what the server cannot hold, tells that, and goes on', async () => {
    const folder = benchFolder();
    withRecords(folder, 'bench-e', (database) => {
      writeBuild(database, { build: 'e1', title: 'Before it' });
      // Bent by other hands: no text of the server's has a zero in it.
      const bent = database.sql.prepare(
        "INSERT INTO notebook_entry (id, build, version, at, by, deed) SELECT ? || id, ?, version, at, by, deed FROM notebook_entry WHERE id = 'e1-e3'",
      );
      bent.run('bent\0', 'e1');
      bent.run('of-a-bent-build', 'e\0');
      for (let n = 0; n < 120; n += 1) bent.run(`bent\0${n}`, 'e1');
      writeBuild(database, { build: 'e2', title: 'After it' });
    });
    const sent = await archive('send', benchRole(4), '--once', '--data', folder);
    expect(sent).toMatchObject({ code: 0 });
    const { refused } = sent.answers[0] as { refused: { problem: { kind: string } }[] };
    expect(refused).toHaveLength(122);
    expect(new Set(refused.map(({ problem }) => problem.kind))).toEqual(new Set(['cannot-hold']));
    const there = Number(server.psql("SELECT count(*) FROM axlewright.entry WHERE id LIKE 'e_-%'"));
    expect(there).toBe((sent.answers[0] as { entries: number }).entries);
    expect((await archive('find', benchRole(4), 'after')).answers[0]).toMatchObject([{ id: 'e2' }]);
    // More was refused than is told: the cursor stays all the same, and nothing is asked for twice.
    const again = await archive('send', benchRole(4), '--once', '--data', folder);
    expect(again.answers).toEqual([{ entries: 0, readings: 0, photos: 0, refused: [] }]);
  });

  it('says plainly what is wrong with an address, a password, a database', async () => {
    const to = (address: string) => inProcess('archive', 'find', 'x', '--to', address);
    expect((await to('http://x')).code).toBe(2);
    expect((await to('postgres://a:b@c/d')).said).toContain('holds a password');
    const missing = await to(server.to(benchRole(1)).replace(/archive$/u, 'nowhere'));
    expect(missing).toMatchObject({ code: 1 });
    expect(missing.said).toContain('has no database of this name');
    process.env['PGPASSWORD'] = 'wrong';
    expect((await to(server.to(benchRole(1)))).said).toContain('refuses the password');
    process.env['PGPASSWORD'] = password;
    expect((await to('postgres://a@127.0.0.1:1/d')).said).toContain('does not answer at this port');
  });
});

/** Every letter of a text, and every two in a row within a word. */
function piecesOf(text: string): readonly string[] {
  const letters = Array.from(text);
  return letters
    .flatMap((letter, at) => [letter, `${letter}${letters[at + 1] ?? ''}`])
    .filter((piece) => !piece.includes(' '));
}

function benchFolderOf(bench: string): string {
  const folder = benchFolder();
  withRecords(folder, bench, () => undefined);
  return folder;
}

/** What a build says in figures: everything judged, the notebook, and the readings with their hashes. */
async function figuresOf(folder: string, build: string): Promise<unknown> {
  const out = join(benchFolder(), 'out');
  const { answers, said } = await inProcess('export', '--build', build, '--as', 'json', '--out', out, '--data', folder);
  expect(said).toBe('');
  const [file = ''] = (answers[0] as { files: readonly string[] }).files;
  const { judged, notebook, readings } = JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>;
  return { judged, notebook, readings };
}
