import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  watch,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Line, serveLine } from '../../../hardware-sim/lines/line.ts';
import { freshDemoFolder } from '../../../src/main/cli/demo/recordsFolder.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { allVerbs } from '../../../src/main/cli/verbs.ts';
import { openJournal } from '../../../src/main/journal/journal.ts';
import { databaseName, openDatabase } from '../../../src/main/store/database.ts';
import { openIdentity } from '../../../src/main/store/identity.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import { openPhotos } from '../../../src/main/store/photos.ts';
import type { Deed } from '../../../src/shared/job/records/notebook.ts';
import { inProcess, start } from '../../support/commandLine.ts';
import { plainJpeg } from '../../support/photos.ts';
import { measuredNotebook, rockedRows } from '../../support/records/issued.ts';

const ground = mkdtempSync(join(tmpdir(), 'axlewright-interrupted-'));
const at = (...names: readonly string[]): string => join(ground, ...names);

/** So large that the disk takes a while, and Ctrl+C falls into the middle of the writing. */
const jpeg = Buffer.concat([Buffer.from('ffd8', 'hex'), Buffer.alloc(48e6, 7), Buffer.from('ffd9', 'hex')]);
const sha256 = createHash('sha256').update(jpeg).digest('hex');

/** The records of a bench with a build in them. */
function bench(name: string, photo: boolean): void {
  const database = openDatabase(at(name), systemClock);
  if (!database.ok) throw new Error(database.problem.sentence);
  expect(openIdentity(database.value, () => name).ok).toBe(true);
  const journal = openJournal(database.value);
  for (const { seq: _seq, ...row } of rockedRows) journal.append(row);
  const deed: Deed = { kind: 'photographed', assembly: 'e4', photo: { sha256, width: 4, height: 3 }, from: 'file' };
  const entries = measuredNotebook({ trials: 2, stations: 8, more: photo ? [deed] : [] });
  for (const entry of entries) openNotebooks(database.value).add('b1', entry);
  if (photo) openPhotos(database.value).keep({ sha256, width: 4, height: 3 }, jpeg, '2026-01-05T09:00:00.000Z');
  journal.close();
  database.value.close();
}

const readings = Array.from({ length: 20_000 }, (_, n) => `{"t":${n / 100},"value":${(n % 9) / 100},"unit":"mm"}`);

interface Case {
  readonly words: readonly string[];
  /** Where it writes. */
  readonly into?: string;
}

/** One way to call each verb; the types ask for every verb there is. */
const cases = (line: Line): Readonly<Record<string, Case>> => ({
  measure: { words: ['runout', '--in', at('readings.jsonl'), '--resolution', '0.01mm'] },
  predict: { words: ['--in', at('nothing.jsonl')] },
  plan: { words: ['--in', at('nothing.jsonl')] },
  'read-pattern': { words: ['--photo', at('photo.jpg'), '--corners', '1,9 9,9 9,1 1,1'] },
  ports: { words: [] },
  learn: { words: ['--link', line.link, '--seconds', '60'] },
  watch: { words: ['--link', line.link] },
  simulate: { words: ['--gauge', 'indicator', '--format', 'auto'] },
  builds: { words: ['--data', at('large')] },
  export: {
    words: ['--build', 'b1', '--as', 'json', '--photos', '--out', at('out'), '--data', at('large')],
    into: at('out'),
  },
  verify: { words: [at('given', 'certificate.json'), '--data', at('small')] },
  import: { words: [at('given', 'build.axlewright'), '--data', at('taken')], into: at('taken') },
  backup: { words: [at('stick'), '--data', at('large')], into: at('stick') },
  // Nothing listens there, so that it tries again and again.
  archive: { words: ['send', '--to', 'postgres://bench@127.0.0.1:9/axlewright', '--data', at('small')] },
  restore: { words: [at('given', 'of.backup'), '--data', at('restored')], into: at('restored') },
  schema: { words: ['certificate'] },
  demo: { words: ['--out', at('demo')], into: at('demo') },
  open: { words: ['--browser', '--data', at('opened')], into: at('opened') },
});

const names = (await allVerbs()).map(({ name }) => name);

describe.skipIf(process.platform === 'win32')('a verb that is ended by Ctrl+C', () => {
  let line: Line;
  beforeAll(async () => {
    bench('large', true);
    bench('small', false);
    mkdirSync(at('given'));
    writeFileSync(at('readings.jsonl'), readings.join('\n'));
    writeFileSync(at('nothing.jsonl'), '\n'.repeat(100_000));
    writeFileSync(at('photo.jpg'), plainJpeg(600, 400));
    for (const [as, name] of [
      ['json', 'certificate.json'],
      ['bundle', 'build.axlewright'],
    ] as const) {
      const words = ['--build', 'b1', '--as', as, '--out', at('given', as), '--data', at('small')];
      const { answers } = await inProcess('export', ...words);
      const [file = ''] = (answers[0] as { readonly files: readonly string[] }).files;
      writeFileSync(at('given', name), readFileSync(file));
    }
    mkdirSync(at('given', 'backup'));
    const { answers } = await inProcess('backup', at('given', 'backup'), '--data', at('large'));
    renameSync((answers[0] as { readonly file: string }).file, at('given', 'of.backup'));
    line = await serveLine();
  });
  afterAll(async () => {
    await line.end();
    rmSync(ground, { recursive: true, force: true });
  });

  it.each(names)('%s, ends at once and leaves nothing half written', { timeout: 60_000 }, async (name) => {
    const asked = cases(line)[name];
    if (asked === undefined) throw new Error(`say here how ${name} is called`);
    if (asked.into !== undefined) mkdirSync(asked.into, { recursive: true });
    // What only answers is ended once; what writes, in the middle of it and a moment later.
    for (const moment of asked.into === undefined ? ['at once'] : ['at once', 'a moment later']) {
      const { child, ended } = start([name, ...asked.words]);
      await signOfLife(child.stdout, child.stderr, asked.into);
      if (moment === 'a moment later') await new Promise((resolve) => void setTimeout(resolve, 150));
      child.kill('SIGINT');
      const { code, said } = await ended;
      expect({ code, signal: child.signalCode, said }).toSatisfy(endedWell);
      if (asked.into !== undefined) lookThrough(asked.into);
    }
  });

  it('the demo can be run once more in the same place', () => {
    expect(freshDemoFolder(at('demo'))).toMatchObject({ ok: true });
  });
});

/** The first word that it says, or the first file that it makes; or its end. */
async function signOfLife(
  stdout: NodeJS.ReadableStream,
  stderr: NodeJS.ReadableStream,
  into: string | undefined,
): Promise<void> {
  const seen = Promise.withResolvers<void>();
  const watcher = into === undefined ? undefined : watch(into, () => seen.resolve());
  for (const stream of [stdout, stderr]) stream.once('data', seen.resolve).once('close', seen.resolve);
  await seen.promise;
  watcher?.close();
}

const endedWell = (end: { code: number | null; signal: string | null; said: string }): boolean =>
  (end.signal === 'SIGINT' || end.code === 0 || end.code === 1) && !/\n\s+at |fault of its own/u.test(end.said);

/** Every file in a folder is whole. */
function lookThrough(folder: string): void {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  // How far the database goes is noted anew at the next start; nothing is read from a note that was cut off.
  const isNote = (file: string): boolean => file.endsWith('axlewright.last.part');
  expect(
    files.filter((file) => (file.endsWith('.part') && !isNote(file)) || /(?:^|\/)\.demo-records/u.test(file)),
  ).toEqual([]);
  for (const file of files.map((one) => join(folder, one))) {
    if (file.endsWith('.json')) expect(() => JSON.parse(readFileSync(file, 'utf8')) as unknown, file).not.toThrow();
    if (file.endsWith('.pdf')) expect(readFileSync(file).subarray(-8).toString()).toContain('%%EOF');
    if (file.endsWith('.axlewright')) expect(() => gunzipSync(readFileSync(file)), file).not.toThrow();
    if (file.endsWith('.jpg')) expect(readFileSync(file).equals(jpeg)).toBe(true);
    if (file.endsWith(databaseName)) wholeRecords(join(file, '..'));
  }
}

function wholeRecords(folder: string): void {
  if (!existsSync(join(folder, databaseName))) return;
  const opened = openDatabase(folder, systemClock);
  if (!opened.ok) throw new Error(opened.problem.sentence);
  expect(opened.value.sql.pragma('integrity_check', { simple: true })).toBe('ok');
  const ids = opened.value.sql.prepare<[], string>('SELECT DISTINCT build FROM notebook_entry').pluck().all();
  for (const id of ids) expect(openNotebooks(opened.value).read(id)).toMatchObject({ ok: true });
  opened.value.close();
}
