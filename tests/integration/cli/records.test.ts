import { type AddressInfo, createServer } from 'node:net';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { contentHash } from '../../../src/main/certificate/hash.ts';
import { folderOf } from '../../../src/main/cli/records.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import { certificateContent } from '../../../src/shared/presentation/certificate/content.ts';
import { asProgram, inProcess, start } from '../../support/commandLine.ts';
import { temporaryFolder } from '../../support/folder.ts';
import { journalForTest } from '../../support/openJournal.ts';
import { measuredNotebook, rockedRows } from '../../support/records/issued.ts';
import { openIdentity } from '../../../src/main/store/identity.ts';

const entries = measuredNotebook({ trials: 2, stations: 8 });
const content = certificateContent({ id: 'b1', entries });

/** A data folder with one whole build, whose bench is still open: readers must manage beside it. */
function records(): string {
  const folder = temporaryFolder();
  const { database, journal } = journalForTest(folder);
  expect(openIdentity(database, () => 'bench-a').ok).toBe(true);
  const notebooks = openNotebooks(database);
  for (const entry of entries) notebooks.add('b1', entry);
  // The journal's own first row says that a run began; the entries name rows 1 to 900.
  for (const { seq: _seq, ...row } of rockedRows) journal.append(row);
  journal.append({ kind: 'unreadable', gauge: 'g1', t: 999, at: 0, raw: Buffer.from([0xff]), note: 'noise' });
  expect(journal.flush().ok).toBe(true);
  return folder;
}

interface Exported {
  readonly files: readonly string[];
  readonly sha256: string;
  readonly complete: boolean;
}

type Json = Readonly<Record<string, unknown>>;

const exported = async (as: string, ...more: readonly string[]): Promise<Exported> =>
  exportedFrom(records(), as, ...more);

async function exportedFrom(folder: string, as: string, ...more: readonly string[]): Promise<Exported> {
  const words = ['--build', 'b1', '--as', as, '--out', join(temporaryFolder(), 'new'), '--data', folder];
  const { code, answers, said } = await inProcess('export', ...words, ...more);
  expect(said).toBe('');
  expect(code).toBe(0);
  return answers[0] as Exported;
}

describe('builds', () => {
  it('lists what is in the records, beside an open bench', async () => {
    const { code, answers } = await asProgram(['builds', '--data', records()]);
    expect(code).toBe(0);
    const { title, technician, startedAt } = content.build;
    const lastEntryAt = entries.at(-1)?.at;
    expect(answers).toMatchObject([
      [{ id: 'b1', title, technician, startedAt, lastEntryAt, standsAt: 'Final', lies: 'on-the-bench' }],
    ]);
  });

  it('finds a build by words typed into it, in any order, and says where there is none', async () => {
    const folder = records();
    const [first = '', second = ''] = content.build.title.split(' ');
    const found = await inProcess('builds', '--data', folder, '--find', `${second} ${first.slice(0, 3)}`);
    expect(found).toMatchObject({ code: 0, answers: [[{ id: 'b1' }]] });
    const nothing = await inProcess('builds', '--data', folder, '--find', 'quokka');
    expect(nothing).toMatchObject({ code: 0, answers: [[]] });
    expect(nothing.said).toContain('None of 1 has "quokka".');
    expect((await inProcess('builds', '--data', folder, '--limit', 'many')).code).toBe(2);
  });

  it('ends with 1 where there are no records, and makes none', async () => {
    const folder = join(temporaryFolder(), 'nothing');
    const { code, answers, said } = await inProcess('builds', '--data', folder);
    expect({ code, answers }).toEqual({ code: 1, answers: [] });
    expect(said).toContain(folder);
    expect(existsSync(folder)).toBe(false);
  });

  it('ends with 1 where the records are no records', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'axlewright.db'), 'words '.repeat(1000));
    const { code, said } = await inProcess('builds', '--data', folder);
    expect(code).toBe(1);
    expect(said).toMatch(/not an Axlewright database/u);
  });

  it('looks where the bench keeps them when no folder is named', () => {
    const given = { words: [], flag: () => false };
    expect(folderOf({ ...given, text: () => '/there' })).toBe('/there');
    expect(folderOf({ ...given, text: () => undefined })).toMatch(/axlewright/iu);
  });
});

describe('export', () => {
  it('writes the certificate’s data with its readings and signature as one JSON, under its own hash', async () => {
    const { files, sha256, complete } = await exported('json');
    expect(files).toHaveLength(1);
    const { readingsCsv, signature, ...data } = JSON.parse(readFileSync(files[0] ?? '', 'utf8')) as Json;
    expect(sha256).toBe(contentHash(data));
    expect(readingsCsv).toContain('reading,');
    expect(signature).toMatchObject({ algorithm: 'Ed25519' });
    expect(complete).toBe(content.complete);
    expect(files[0]).toContain(sha256.slice(0, 8));
    const { code, answers } = await inProcess('verify', files[0] ?? '');
    expect(code).toBe(0);
    expect(answers[0]).toMatchObject({ holds: true, recomputed: true, from: 'json' });
  });

  it('writes a certificate that verifies, on either paper and in either units', async () => {
    for (const look of [[], ['--page', 'letter', '--units', 'inch']]) {
      const folder = records();
      const { files, sha256 } = await exportedFrom(folder, 'pdf', ...look);
      const { code, answers } = await inProcess('verify', files[0] ?? '', '--data', folder);
      expect(code).toBe(0);
      expect(answers[0]).toMatchObject({
        holds: true,
        sha256,
        from: 'pdf',
        build: 'b1',
        recomputed: true,
        sameWordsToday: true,
        signedBy: { id: 'bench-a', known: true },
      });
    }
  });

  it('writes the readings behind each measurement as measure reads them', async () => {
    const { files } = await exported('journal');
    const file = files.find((name) => name.includes('backlash')) ?? '';
    const lines = readFileSync(file, 'utf8')
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as object);
    expect(lines.at(-1)).toEqual({ t: 999, value: { none: 'noise' }, unit: '', raw: '\u00ff', flags: [] });
    expect(lines.slice(0, -1)).toEqual(
      rockedRows.flatMap((row): readonly object[] => {
        if (row.kind === 'pedal') return [{ t: row.t, pedal: 'next' }];
        return row.kind === 'reading'
          ? [{ t: row.t, value: row.value, unit: row.unit, raw: `${row.value}\r`, flags: [] }]
          : [];
      }),
    );
    const { code, answers } = await inProcess('measure', 'backlash', '--in', file);
    expect(code).toBe(0);
    expect(answers[0]).toMatchObject({ mean_mm: expect.any(Number) });
  });

  it('names a build that is not there', async () => {
    const words = ['--build', 'b9', '--as', 'json', '--out', temporaryFolder(), '--data', records()];
    const { code, answers, said } = await inProcess('export', ...words);
    expect({ code, answers }).toEqual({ code: 2, answers: [] });
    expect(said).toMatch(/--build.*b9/u);
  });

  it('ends with 1 where it may not write', async () => {
    const file = join(temporaryFolder(), 'a-file');
    writeFileSync(file, '');
    const words = ['--build', 'b1', '--as', 'json', '--out', join(file, 'below'), '--data', records()];
    const { code, said } = await inProcess('export', ...words);
    expect(code).toBe(1);
    expect(said).toMatch(/ENOTDIR|EEXIST|ENOENT/u);
  });
});

describe('verify', () => {
  const at = (name: string, bytes: Buffer | string): string => {
    const path = join(temporaryFolder(), name);
    writeFileSync(path, bytes);
    return path;
  };

  it('answers for the data alone, and says that nobody has signed them', async () => {
    const { files } = await exported('json');
    const {
      readingsCsv: _csv,
      signature: _signature,
      ...data
    } = JSON.parse(readFileSync(files[0] ?? '', 'utf8')) as Json;
    const { code, answers } = await asProgram(['verify', at('c.json', JSON.stringify(data, undefined, 1))]);
    expect(code).toBe(0);
    expect(answers[0]).toMatchObject({ holds: true, signedBy: { none: 'unsigned' }, sha256: contentHash(data) });
  });

  it('ends with 1 for data that were altered', async () => {
    const { files } = await exported('json');
    const was = `"complete":${content.complete}`;
    const text = readFileSync(files[0] ?? '', 'utf8').replace(was, `"complete":${!content.complete}`);
    const { code, answers, said } = await inProcess('verify', at('c.json', text));
    expect(code).toBe(1);
    expect(answers).toMatchObject([{ holds: false, kind: 'altered' }]);
    expect(said).toMatch(/does not hold together/u);
  });

  it('ends with 1 for a page that was altered while the data were not', async () => {
    const { files } = await exported('pdf');
    const pdf = readFileSync(files[0] ?? '');
    // One byte of the first page's own stream, the file as long as before.
    const text = pdf.toString('latin1');
    const page = /\/Contents (\d+) 0 R/u.exec(text)?.[1] ?? '';
    const inside = text.indexOf('stream\n', text.indexOf(`\n${page} 0 obj\n`)) + 60;
    pdf[inside] = ((pdf[inside] ?? 0) + 1) % 256;
    const { code, answers, said } = await inProcess('verify', at('c.pdf', pdf));
    expect(code).toBe(1);
    expect(answers).toMatchObject([{ holds: false }]);
    expect(said).toMatch(/its file is not the one that was signed/u);
  });

  it.each([
    ['words', 'no certificate'],
    ['half a PDF', '%PDF-1.7\n'],
    ['other data', '{"kind":"something"}'],
  ])('ends with 1 for what is no certificate: %s', async (_name, bytes) => {
    const { code, answers } = await inProcess('verify', at('x', bytes));
    expect(code).toBe(1);
    expect(answers).toMatchObject([{ holds: false }]);
  });
});

describe('open', () => {
  it('serves the bench to a browser, or says that its screens are not built', async () => {
    const running = start(['open', '--browser', '--data', temporaryFolder()]);
    const first = await running.answered(1).catch(() => undefined);
    if (first === undefined) {
      const { code, said } = await running.ended;
      expect(code).toBe(1);
      expect(said).toMatch(/screens are not in/u);
      return;
    }
    const [{ link }] = first as readonly [{ readonly link: string }];
    expect((await fetch(link)).status).toBe(200);
    running.child.kill('SIGINT');
    expect(await running.ended).toMatchObject({ code: 0, answers: [{ link }] });
  });

  it('says in one sentence that the port is another program\u2019s', async () => {
    const other = createServer();
    await new Promise<void>((resolve) => void other.listen(0, '127.0.0.1', resolve));
    const { port } = other.address() as AddressInfo;
    const { code, said } = await asProgram(['open', '--browser', '--port', String(port), '--data', temporaryFolder()]);
    other.close();
    expect(code).toBe(1);
    expect(said).toMatch(new RegExp(`Port ${port} is in use by another program|screens are not in`, 'u'));
    expect(said).not.toMatch(/Error:|at .*\.ts/u);
  });
});
