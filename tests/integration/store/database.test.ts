import fs from 'node:fs';
import path from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { systemClock } from '../../../src/main/clock.ts';
import { databaseName, openDatabase } from '../../../src/main/store/database.ts';
import { applicationId } from '../../../src/main/store/opening.ts';
import { migrations } from '../../../src/main/store/migrations.ts';
import { temporaryFolder } from '../../support/folder.ts';

const kindOf = (folder: string): string => {
  const opened = openDatabase(folder, systemClock);
  if (!opened.ok) return opened.problem.kind;
  opened.value.close();
  return 'opened';
};

describe('the database file', () => {
  it('is made with its mark, its version, a write-ahead log and a sync on every commit', () => {
    const opened = openDatabase(path.join(temporaryFolder(), 'new', 'folder'), systemClock);
    if (!opened.ok) throw new Error(opened.problem.sentence);
    const { sql } = opened.value;
    expect(sql.pragma('application_id', { simple: true })).toBe(applicationId);
    expect(sql.pragma('user_version', { simple: true })).toBe(migrations.length);
    expect(sql.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(sql.pragma('synchronous', { simple: true })).toBe(2);
    opened.value.close();
  });

  it('is refused to a second bench and open to a reader beside the first', () => {
    const folder = temporaryFolder();
    const first = openDatabase(folder, systemClock);
    if (!first.ok) throw new Error(first.problem.sentence);
    expect(kindOf(folder)).toBe('database-in-use');
    const reader = openDatabase(folder, systemClock, { as: 'reader' });
    if (!reader.ok) throw new Error(reader.problem.sentence);
    expect(() => reader.value.sql.exec('DELETE FROM journal')).toThrow(/readonly/u);
    reader.value.close();
    first.value.close();
    expect(kindOf(folder)).toBe('opened');
  });

  it('can be read when no bench is running', () => {
    const folder = temporaryFolder();
    expect(kindOf(folder)).toBe('opened');
    const reader = openDatabase(folder, systemClock, { as: 'reader' });
    if (!reader.ok) throw new Error(reader.problem.sentence);
    expect(reader.value.sql.prepare('SELECT count(*) FROM journal').pluck().get()).toBe(0);
    reader.value.close();
    const missing = openDatabase(temporaryFolder(), systemClock, { as: 'reader' });
    expect(missing.ok ? 'opened' : missing.problem.kind).toBe('no-folder');
  });

  it('of a newer program is left as it was', () => {
    const folder = temporaryFolder();
    expect(kindOf(folder)).toBe('opened');
    const file = path.join(folder, databaseName);
    const newer = new Sqlite(file);
    newer.pragma(`user_version = ${migrations.length + 1}`);
    newer.pragma('journal_mode = DELETE');
    newer.close();
    const before = fs.readFileSync(file);
    expect(kindOf(folder)).toBe('database-newer');
    expect(fs.readFileSync(file).equals(before)).toBe(true);
  });

  it('that is damaged in the middle is left as it was by a reader, and named', () => {
    const folder = temporaryFolder();
    const opened = openDatabase(folder, systemClock);
    if (!opened.ok) throw new Error(opened.problem.sentence);
    opened.value.sql.exec(`
      INSERT INTO journal_gauge (gauge) VALUES ('one');
      WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 5000)
      INSERT INTO journal (gauge, kind, t, at, raw) SELECT 1, 'unreadable', i, i, zeroblob(20) FROM n;
      PRAGMA wal_checkpoint(TRUNCATE); PRAGMA journal_mode = DELETE;`);
    opened.value.close();
    const file = path.join(folder, databaseName);
    const bytes = fs.readFileSync(file);
    bytes.fill(0x5a, Math.floor(bytes.length / 2), Math.floor(bytes.length / 2) + 8192);
    fs.writeFileSync(file, bytes);
    const again = openDatabase(folder, systemClock, { as: 'reader' });
    expect(again.ok ? 'opened' : again.problem).toMatchObject({
      kind: 'database-corrupt',
      sentence: expect.stringContaining(file),
    });
    expect(fs.readFileSync(file).equals(bytes)).toBe(true);
  });

  it.each([
    ['words that are no database', Buffer.from('my shopping list, kept under an unlucky name\n'.repeat(40))],
    ['an SQLite file of another program', foreignDatabase()],
  ])('that is %s is left as it was', (_name, bytes) => {
    const folder = temporaryFolder();
    const file = path.join(folder, databaseName);
    fs.writeFileSync(file, bytes);
    expect(kindOf(folder)).toBe('not-our-database');
    expect(fs.readFileSync(file).equals(bytes)).toBe(true);
  });

  it.each(['bench', 'reader'] as const)('that is a folder is named as one by a %s', (as) => {
    const folder = temporaryFolder();
    fs.mkdirSync(path.join(folder, databaseName));
    const opened = openDatabase(folder, systemClock, { as });
    expect(opened).toMatchObject({ ok: false, problem: { kind: 'not-our-database' } });
    expect(opened.ok ? '' : opened.problem.sentence).toMatch(/is a folder/u);
  });

  it('in a folder that cannot be made is one clear sentence', () => {
    const folder = temporaryFolder();
    const file = path.join(folder, 'a-file');
    fs.writeFileSync(file, '');
    expect(kindOf(path.join(file, 'below'))).toBe('no-folder');
  });

  it('is copied before a migration changes its shape', () => {
    const folder = temporaryFolder();
    expect(kindOf(folder)).toBe('opened');
    const more = [...migrations, { name: 'one more', sql: 'CREATE TABLE later (x INTEGER) STRICT' }];
    const opened = openDatabase(folder, systemClock, { migrations: more });
    if (!opened.ok) throw new Error(opened.problem.sentence);
    expect(opened.value.sql.pragma('user_version', { simple: true })).toBe(more.length);
    opened.value.close();
    const copy = new Sqlite(path.join(folder, `axlewright-version-${migrations.length}.db`), { readonly: true });
    expect(copy.pragma('user_version', { simple: true })).toBe(migrations.length);
    copy.close();
    expect(kindOf(folder)).toBe('database-newer');
  });

  it('keeps its old shape when a migration fails', () => {
    const folder = temporaryFolder();
    expect(kindOf(folder)).toBe('opened');
    const wrong = [
      ...migrations,
      { name: 'half', sql: 'CREATE TABLE half (x INTEGER); CREATE TABLE half (x INTEGER)' },
    ];
    expect(() => openDatabase(folder, systemClock, { migrations: wrong })).toThrow(/already exists/u);
    expect(kindOf(folder)).toBe('opened');
  });
});

function foreignDatabase(): Buffer {
  const other = new Sqlite(':memory:');
  other.exec('CREATE TABLE recipes (name TEXT)');
  const bytes = other.serialize();
  other.close();
  return bytes;
}
