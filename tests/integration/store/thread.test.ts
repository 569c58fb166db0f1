import { readFileSync } from 'node:fs';
import { expect, it, onTestFinished } from 'vitest';
import { systemClock } from '../../../src/main/clock.ts';
import { type Database, openDatabase } from '../../../src/main/store/database.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import { witnessFile } from '../../../src/main/store/witness.ts';
import type { Deed, Entry } from '../../../src/shared/job/records/notebook.ts';
import { newFolder, valueOf } from '../../support/bench/open.ts';

const entry = (id: string, deed: Deed): Entry => ({
  id,
  version: 1,
  at: '2026-01-05T09:00:00.000Z',
  by: 'A. Tester',
  deed,
});
const note = (text: string): Entry => entry(text, { kind: 'noted', topic: 'note', text });
const start = entry('start', { kind: 'started', title: 'Rear axle', technician: 'A. Tester' });

function opened(folder: string, as: 'bench' | 'thread'): Database {
  const database = valueOf(openDatabase(folder, systemClock, { as }));
  onTestFinished(() => database.close());
  return database;
}

it('misses nothing that a thread took in between two entries of its own', () => {
  const folder = newFolder();
  const own = openNotebooks(opened(folder, 'bench'));
  valueOf(own.add('b', start));
  expect(own.read('b')).toMatchObject({ ok: true });
  const database = opened(folder, 'thread');
  const beside = openNotebooks(database);
  valueOf(database.write(() => beside.takeIn('b', [{ entry: note('taken in'), bench: 'other' }])));
  valueOf(own.add('b', note('own')));
  const read = own.read('b');
  expect(read?.ok === true && read.value.entries.map(({ id }) => id)).toEqual(['start', 'taken in', 'own']);
});

it('leaves pen and witness to the bench', () => {
  const folder = newFolder();
  const own = opened(folder, 'bench');
  valueOf(openNotebooks(own).add('b', start));
  const before = readFileSync(witnessFile(folder), 'utf8');
  const database = opened(folder, 'thread');
  valueOf(database.write(() => openNotebooks(database).takeIn('b', [{ entry: note('taken in'), bench: 'other' }])));
  expect(readFileSync(witnessFile(folder), 'utf8')).toBe(before);
  database.close();
  expect(openDatabase(folder, systemClock)).toMatchObject({ ok: false, problem: { kind: 'database-in-use' } });
});
