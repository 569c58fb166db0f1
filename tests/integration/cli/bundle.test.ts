import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { gunzipSync, gzipSync } from 'node:zlib';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyFile, openIdentity } from '../../../src/main/store/identity.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import { openPhotos } from '../../../src/main/store/photos.ts';
import { contentHash } from '../../../src/main/certificate/hash.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { openDatabase } from '../../../src/main/store/database.ts';
import { openJournal } from '../../../src/main/journal/journal.ts';
import type { Deed, Entry } from '../../../src/shared/job/records/notebook.ts';
import { inProcess } from '../../support/commandLine.ts';
import { temporaryFolder } from '../../support/folder.ts';
import { measuredNotebook, rockedRows } from '../../support/records/issued.ts';

const jpeg = Buffer.from('ffd8ffd9', 'hex');
const sha256 = createHash('sha256').update(jpeg).digest('hex');
const photographed: Deed = {
  kind: 'photographed',
  assembly: 'e4',
  photo: { sha256, width: 4, height: 3 },
  from: 'file',
};
const entries = measuredNotebook({ trials: 2, stations: 8, more: [photographed] });

/** The records of a bench with a build in them, closed. */
function bench(id: string, written: readonly Entry[] = []): string {
  const folder = temporaryFolder();
  const database = openDatabase(folder, systemClock);
  if (!database.ok) throw new Error(database.problem.sentence);
  expect(openIdentity(database.value, () => id).ok).toBe(true);
  const journal = openJournal(database.value);
  for (const { seq: _seq, ...row } of rockedRows) journal.append(row);
  for (const entry of written) openNotebooks(database.value).add('b1', entry);
  openPhotos(database.value).keep({ sha256, width: 4, height: 3 }, jpeg, '2026-01-05T09:00:00.000Z');
  journal.close();
  database.value.close();
  return folder;
}

async function exported(folder: string, as: string): Promise<string> {
  const words = ['--build', 'b1', '--as', as, '--out', join(temporaryFolder(), 'out'), '--data', folder];
  const { code, answers, said } = await inProcess('export', ...words);
  expect({ code, said }).toEqual({ code: 0, said: '' });
  return (answers[0] as { readonly files: readonly string[] }).files[0] ?? '';
}

describe('a build handed from bench to bench', () => {
  it('comes whole, shows the same numbers, and leaves as the same file', async () => {
    const [a, b] = [bench('bench-a', entries), bench('bench-b')];
    const file = await exported(a, 'bundle');
    const first = await inProcess('import', file, '--data', b);
    expect(first).toMatchObject({
      code: 0,
      answers: [{ build: 'b1', entries: entries.length, readings: rockedRows.length + 1, already: 0 }],
    });
    expect(readFileSync(await exported(b, 'bundle')).equals(readFileSync(file))).toBe(true);
    const [mine, theirs] = await Promise.all([exported(a, 'json'), exported(b, 'json')]);
    const figures = (name: string) => {
      const { judged, notebook, readings } = JSON.parse(readFileSync(name, 'utf8')) as Record<string, unknown>;
      return { judged, notebook, readings };
    };
    expect(figures(theirs)).toEqual(figures(mine));
    // The other bench vouches with its own key, knows the first, and works everything out from the readings it took in.
    const { answers } = await inProcess('verify', theirs, '--data', b);
    expect(answers[0]).toMatchObject({ holds: true, recomputed: true, signedBy: { id: 'bench-b', known: true } });
    const { answers: known } = await inProcess('verify', mine, '--data', b);
    expect(known[0]).toMatchObject({ holds: true, signedBy: { id: 'bench-a', known: true } });
    const { answers: stranger } = await inProcess('verify', theirs, '--data', a);
    expect(stranger[0]).toMatchObject({ holds: true, signedBy: { id: 'bench-b', known: false } });
  });

  it('changes nothing when it is taken in twice', async () => {
    const b = bench('bench-b');
    const file = await exported(bench('bench-a', entries), 'bundle');
    await inProcess('import', file, '--data', b);
    const again = await inProcess('import', file, '--data', b);
    expect(again.answers).toEqual([{ build: 'b1', entries: 0, readings: 0, already: entries.length }]);
  });

  it('goes on where it came from, and is continued', async () => {
    const b = bench('bench-b');
    await inProcess('import', await exported(bench('bench-a', entries.slice(0, 10)), 'bundle'), '--data', b);
    const more = await inProcess('import', await exported(bench('bench-a', entries), 'bundle'), '--data', b);
    expect(more.answers).toMatchObject([{ entries: entries.length - 10, already: 10 }]);
  });

  it('is refused where it has gone on in both places, and nothing is changed', async () => {
    const b = bench('bench-b', [...entries.slice(0, 10), { ...(entries[10] as Entry), id: 'other' }]);
    const before = readFileSync(await exported(b, 'bundle'));
    const { code, said } = await inProcess('import', await exported(bench('bench-a', entries), 'bundle'), '--data', b);
    expect(code).toBe(1);
    expect(said).toMatch(/from entry 11 on/u);
    expect(readFileSync(await exported(b, 'bundle')).equals(before)).toBe(true);
  });

  it('is refused when it was cut short, changed, or is something else', async () => {
    const file = readFileSync(await exported(bench('bench-a', entries), 'bundle'));
    const changed = gzipSync(gunzipSync(file).toString('utf8').replace('2.1 l', '1.2 l'));
    for (const bytes of [file.subarray(0, 2000), changed, Buffer.from('words'), gzipSync('{}')]) {
      const path = join(temporaryFolder(), 'x.axlewright');
      writeFileSync(path, bytes);
      const { code, answers, said } = await inProcess('import', path, '--data', bench('bench-b'));
      expect({ code, answers }).toEqual({ code: 1, answers: [] });
      expect(said).toMatch(/not a build as another bench gives it out/u);
    }
  });

  it.each<[string, string, (bundle: Bundle) => void]>([
    ['has no beginning', 'does not begin with the start', ({ entries: all }) => void all.shift()],
    ['has an entry twice', 'in it twice', ({ entries: all }) => void all.push(...all.slice(-1))],
    ['holds an entry of another build', 'another build here', (bundle) => void (bundle.build = 'b2')],
    ['holds a doubt below nought', 'below 0', ({ entries: all }) => spoilDoubt(all)],
  ])('is refused where its notebook %s, though its hash fits, and nothing is changed', async (_, why, spoil) => {
    const file = readFileSync(await exported(bench('bench-a', entries), 'bundle'));
    const { bundle } = JSON.parse(gunzipSync(file).toString('utf8')) as { readonly bundle: Bundle };
    spoil(bundle);
    const path = join(temporaryFolder(), 'x.axlewright');
    writeFileSync(path, gzipSync(JSON.stringify({ bundle, sha256: contentHash(bundle) })));
    const into = bench('bench-b', bundle.build === 'b2' ? entries : []);
    const { code, answers, said } = await inProcess('import', path, '--data', into);
    expect({ code, answers }).toEqual({ code: 1, answers: [] });
    expect(said).toContain(why);
    expect((await inProcess('builds', '--data', into)).answers[0]).toHaveLength(bundle.build === 'b2' ? 1 : 0);
  });
});

/** A bundle as far as these tests spoil it. */
interface Bundle {
  build: string;
  readonly entries: { readonly entry: Entry }[];
}

function spoilDoubt(all: Bundle['entries']): void {
  const part = all
    .flatMap(({ entry: { deed } }) =>
      deed.kind === 'measured' && deed.result.kind === 'backlash' ? [deed.result] : [],
    )
    .flatMap(({ stations }) => stations.flatMap(({ parts }) => parts))[0];
  if (part === undefined) throw new Error('no station with its doubt in the notebook');
  Object.assign(part, { u: -1 });
}

describe('the identity of a bench', () => {
  it('is made once, with a key that only its owner reads', () => {
    const folder = bench('bench-a');
    expect(statSync(keyFile(folder)).mode & 0o777).toBe(0o600);
    const key = readFileSync(keyFile(folder), 'utf8');
    const database = openDatabase(folder, systemClock);
    if (!database.ok) throw new Error(database.problem.sentence);
    const identity = openIdentity(database.value, () => 'another');
    expect(identity).toMatchObject({ ok: true, value: { bench: { id: 'bench-a' } } });
    expect(readFileSync(keyFile(folder), 'utf8')).toBe(key);
    database.value.close();
  });

  it('keeps knowing what it signed with a key that was lost', async () => {
    const folder = bench('bench-a', entries);
    const before = await exported(folder, 'json');
    writeFileSync(keyFile(folder), 'gone');
    const refused = await inProcess(
      'export',
      '--build',
      'b1',
      '--as',
      'json',
      '--out',
      temporaryFolder(),
      '--data',
      folder,
    );
    expect(refused.code).toBe(1);
    expect(refused.said).toMatch(/key of this bench is not in/u);
    const database = openDatabase(folder, systemClock);
    if (!database.ok) throw new Error(database.problem.sentence);
    expect(openIdentity(database.value, () => 'another')).toMatchObject({
      ok: true,
      value: { bench: { id: 'bench-a' } },
    });
    database.value.close();
    const { answers } = await inProcess('verify', before, '--data', folder);
    expect(answers[0]).toMatchObject({ holds: true, signedBy: { id: 'bench-a', known: true } });
    const { answers: now } = await inProcess('verify', await exported(folder, 'json'), '--data', folder);
    expect(now[0]).toMatchObject({ signedBy: { id: 'bench-a', known: true } });
  });
});
