import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { readAttachments } from '../../../../src/main/certificate/attachment.ts';
import { canonicalJson, contentHash } from '../../../../src/main/certificate/hash.ts';
import { jsonFromPdf } from '../../../../src/main/certificate/openFile.ts';
import { certificatePdf } from '../../../../src/main/certificate/pdf.ts';
import { hashOfLines } from '../../../../src/main/certificate/readings.ts';
import { sha256Of } from '../../../../src/main/certificate/hash.ts';
import { dataSignature } from '../../../../src/main/certificate/signature.ts';
import { verifyCertificate } from '../../../../src/main/certificate/verify.ts';
import { described, limitsSet, measured, notebook, trial } from '../../../support/records/scenario.ts';
import { issued, measuredNotebook, testBench } from '../../../support/records/issued.ts';

const issue = issued(measuredNotebook({ trials: 1, stations: 4 }));
/** A sample small enough to have every byte of it changed in turn: a few entries and a few readings. */
const small = issued(
  notebook(described, limitsSet, trial, measured('e3', 'caps-marked', { kind: 'confirmed', yes: true }), {
    kind: 'noted',
    topic: 'oil',
    text: '2.1 l of the grade on the plate',
  }),
);
const look = { page: 'letter', units: 'inch' } as const;

type Json = Record<string, unknown>;
const asJson = (): Json => JSON.parse(JSON.stringify(issue.data)) as Json;
const holds = async (bytes: Buffer | string): Promise<boolean> => (await verifyCertificate(Buffer.from(bytes))).ok;
const problemOf = async (bytes: Buffer | string) => {
  const answer = await verifyCertificate(Buffer.from(bytes));
  return answer.ok ? undefined : answer.problem;
};

/** Every number, word and yes or no in the data, by the way to it. */
function leavesOf(value: unknown, path: readonly (string | number)[] = []): readonly (readonly (string | number)[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, one]) => leavesOf(one, [...path, key]));
}

function replace(data: Json, path: readonly (string | number)[]): void {
  const holder = path.slice(0, -1).reduce<Json>((one, key) => one[key] as Json, data);
  const key = path.at(-1) ?? '';
  const old = holder[key];
  holder[key] = typeof old === 'number' ? old + 1 : typeof old === 'boolean' ? !old : `${String(old)}x`;
}

/** The data under a signature that is right, as whoever has the key could make them. */
const signedAnew = (data: object, csv = issue.csv): string =>
  canonicalJson({
    ...data,
    readingsCsv: csv,
    signature: dataSignature(testBench.bench.key, canonicalJson(data), testBench),
  });

describe('checking a certificate', { timeout: 120_000 }, () => {
  let pdf: Buffer;
  let json: string;
  beforeAll(async () => {
    pdf = await certificatePdf(issue, look, testBench);
    json = jsonFromPdf(pdf);
  }, 60_000);

  it('reads the files back as they were', () => {
    const read = readAttachments(pdf);
    expect(read.ok && read.value.files.get('certificate.json')?.bytes.toString('utf8')).toBe(canonicalJson(issue.data));
    expect(read.ok && read.value.files.get('readings.csv')?.bytes.toString('utf8')).toBe(issue.csv);
    expect(read.ok && read.value.printed).toEqual([contentHash(issue.data), contentHash(issue.data)]);
  });

  it('finds that the file holds, was signed by a bench that is known, and gives its figures again', async () => {
    const known = [{ ...testBench.bench, own: true }];
    expect(await verifyCertificate(pdf, known)).toMatchObject({
      ok: true,
      value: {
        holds: true,
        from: 'pdf',
        sha256: contentHash(issue.data),
        signedBy: { bench: 'Bench A', id: 'bench-a', known: true, fingerprint: testBench.fingerprint },
        recomputed: true,
        sameWordsToday: true,
        sameJudgementToday: true,
        revision: 1,
      },
    });
    expect(await verifyCertificate(Buffer.from(json))).toMatchObject({
      ok: true,
      value: { from: 'json', recomputed: true, signedBy: { known: false } },
    });
  });

  it('takes bare data as nobody’s, and cannot work them out without their readings', async () => {
    expect(await verifyCertificate(Buffer.from(canonicalJson(issue.data)))).toMatchObject({
      ok: true,
      value: { signedBy: { none: 'unsigned' }, recomputed: { none: 'no-readings' } },
    });
  });

  it('takes data that another program wrote with spaces, and nothing else', async () => {
    expect(await holds(JSON.stringify(JSON.parse(json), undefined, 2))).toBe(true);
    expect(await holds(json.replace('"revision":1', '"revision":1.0'))).toBe(false);
    // A value beside the signed one, for whoever reads the text and not the last of two.
    const spaced = JSON.stringify(JSON.parse(json), undefined, 2);
    expect(await holds(spaced.replace('"asOf": ', '"asOf": "2020-01-01T00:00:00.000Z", "asOf": '))).toBe(false);
    expect(await holds(spaced.replace('{', '{"__proto__": {"revision": 2},'))).toBe(false);
  });

  it('notices every byte of the data that was changed, one after the other', async () => {
    const bytes = Buffer.from(signedAnew(small.data, small.csv));
    const kept: number[] = [];
    for (let at = 0; at < bytes.length; at += 1) {
      const was = bytes[at] ?? 0;
      bytes[at] = was ^ (1 + (at % 7));
      if (await holds(bytes)) kept.push(at);
      bytes[at] = was;
    }
    expect(kept).toEqual([]);
    expect(await holds(bytes)).toBe(true);
  });

  it('notices a change at a thousand places of the PDF', async () => {
    const file = await certificatePdf(small, look, testBench);
    expect(await holds(file)).toBe(true);
    let seed = 20_261_130;
    const kept: number[] = [];
    for (let times = 0; times < 1000; times += 1) {
      seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
      const at = seed % file.length;
      const copy = Buffer.from(file);
      copy[at] = (copy[at] ?? 0) ^ (1 + (times % 255));
      if (await holds(copy)) kept.push(at);
    }
    expect(kept).toEqual([]);
  });

  it('notices what stands behind the end of the file, and one without its signature', async () => {
    expect(await holds(Buffer.concat([pdf, Buffer.from('\n')]))).toBe(false);
    expect(await holds(pdf.toString('latin1').replace('signature.json', 'signature.jsox'))).toBe(false);
  });

  it('notices any one figure changed in what is judged, under whatever signature', async () => {
    const paths = leavesOf(issue.data.judged, ['judged']).filter(
      (path) => !['chance', 'settle', 'beyond', 'needed'].includes(String(path.at(-1))),
    );
    const counting = paths.filter((path) => path[1] !== 'calibration' && path.at(-1) !== 'rule');
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...counting), async (path) => {
        const data = asJson();
        replace(data, path);
        expect((await problemOf(canonicalJson(data)))?.kind).toBe('altered');
      }),
      { numRuns: 150, seed: 20_260_105 },
    );
  });

  it('notices figures that contradict each other, also where they are signed', async () => {
    for (const [key, factor] of [
      ['mean_mm', 1.1],
      ['min_mm', 0.9],
      ['variation_mm', 2],
    ] as const) {
      const data = asJson();
      const entry = (data['notebook'] as Json[]).find(
        ({ deed }) => ((deed as Json)['result'] as Json)?.['kind'] === 'backlash',
      );
      const result = ((entry ?? {})['deed'] as Json)['result'] as Record<string, number>;
      expect(result[key]).toBeGreaterThan(0);
      result[key] = (result[key] ?? 0) * factor;
      expect((await problemOf(canonicalJson(data)))?.sentence).toMatch(/is not that of its stations/u);
      expect((await problemOf(signedAnew(data)))?.sentence).toMatch(/is not that of its stations/u);
    }
  });

  it('has every rock of every station in its data, and notices a value that is not among them', async () => {
    const data = asJson();
    const stations = (data['notebook'] as Json[])
      .map(({ deed }) => ((deed as Json)['result'] as Json | undefined)?.['stations'] as Json[] | undefined)
      .find((found) => found?.[0]?.['rocks'] !== undefined);
    const [first = {}] = stations ?? [];
    expect(first['each_mm']).toHaveLength(Number(first['rocks']));
    first['each_mm'] = (first['each_mm'] as number[]).map((rock) => rock + 0.1);
    expect((await problemOf(signedAnew(data)))?.sentence).toMatch(/is not that of its rocks/u);
  });

  it('notices a figure that its readings do not give, though everything about it agrees', async () => {
    const entries = measuredNotebook({ trials: 1, stations: 4 }).map((entry) => {
      const { deed } = entry;
      if (deed.kind !== 'measured' || deed.result.kind !== 'backlash') return entry;
      const moved = (value: number | { none: string }) => (typeof value === 'number' ? value + 0.0001 : value);
      const { stations, mean_mm, min_mm, max_mm, ...rest } = deed.result;
      const result = {
        ...rest,
        stations: stations.map((one) => ({ ...one, value_mm: moved(one.value_mm) })),
        mean_mm: moved(mean_mm),
        min_mm: moved(min_mm),
        max_mm: moved(max_mm),
      };
      return { ...entry, deed: { ...deed, result } };
    });
    const { data, csv } = issued(entries);
    expect((await problemOf(signedAnew(data, csv)))?.sentence).toMatch(/its readings give/u);
    // A program that measures otherwise is another matter: the bench has signed its figures.
    const other = { ...data, measuring: '0'.repeat(64) };
    expect(await verifyCertificate(Buffer.from(signedAnew(other, csv)))).toMatchObject({
      ok: true,
      value: {
        recomputed: false,
        withinU95: true,
        firstDifference: expect.stringMatching(/^worked out by other code .*value_mm.*differs by -0\.0001\)$/u),
      },
    });
    // Without a signature nobody vouches for them; that is not to say that they were altered.
    expect(await problemOf(canonicalJson({ ...other, readingsCsv: csv }))).toMatchObject({
      kind: 'unvouched',
      sentence: expect.stringMatching(/differs by -0\.0001.*Nobody has signed it/u),
    });
  });

  it('notices readings that are not those of the data, and data that name other readings', async () => {
    const csv = issue.csv.replace(/(gauge,reading,-?\d+\.\d*?)\d,/u, '$1777,');
    expect(csv).not.toBe(issue.csv);
    expect((await problemOf(signedAnew(asJson(), csv)))?.sentence).toMatch(/readings are not those/u);
    const lines = csv.split('\n').slice(1, -1);
    const stretches = issue.data.readings.stretches.map((stretch, index) => ({
      ...stretch,
      sha256: hashOfLines(lines.filter((line) => line.startsWith(`${index + 1},`)).map((line) => line.slice(2))),
    }));
    const data = { ...asJson(), readings: { sha256: sha256Of(csv), stretches } };
    const answer = await verifyCertificate(Buffer.from(signedAnew(data, csv)));
    // One reading of hundreds need not move a figure; where it does, it is not what was recorded.
    if (answer.ok) expect(answer.value.recomputed).toBe(true);
    else expect(answer.problem.sentence).toMatch(/its readings give/u);
  });

  it('outlives a program that asks for more, or calls things otherwise: what was signed holds, and nobody’s word does not', async () => {
    const data = asJson();
    const judged = data['judged'] as { assemblies: { checks: { needed: string; measurement?: string }[] }[] };
    // As a release would have judged that did not yet know some of the optional checks.
    const before = judged.assemblies.flatMap(({ checks }) => checks).length;
    for (const assembly of judged.assemblies)
      assembly.checks = assembly.checks.filter(
        ({ needed, measurement }) => needed === 'required' || measurement !== undefined,
      );
    expect(judged.assemblies.flatMap(({ checks }) => checks).length).toBeLessThan(before);
    data['edition'] = 'another';
    expect(await verifyCertificate(Buffer.from(signedAnew(data)))).toMatchObject({
      ok: true,
      value: { holds: true, edition: 'another', sameJudgementToday: false, sameWordsToday: false },
    });
    expect((await problemOf(canonicalJson(data)))?.sentence).toMatch(/nobody has signed it/u);
  });

  it('takes no member that does not belong', async () => {
    for (const more of [{ extra: 1 }, { judged: { ...issue.data.judged, extra: true } }]) {
      expect((await problemOf(canonicalJson({ ...issue.data, ...more })))?.kind).toBe('altered');
      expect((await problemOf(signedAnew({ ...issue.data, ...more })))?.kind).toBe('altered');
    }
  });

  it('says which entry cannot be read, and keeps later versions apart', async () => {
    const data = asJson();
    ((data['notebook'] as Json[])[3] ?? {})['at'] = 'yesterday';
    expect((await problemOf(canonicalJson(data)))?.sentence).toContain('notebook.3.at');
    expect(await problemOf(canonicalJson({ ...asJson(), version: 3 }))).toMatchObject({ kind: 'newer-certificate' });
  });

  it('is not led astray by files that are something else', async () => {
    expect(await problemOf('words')).toMatchObject({ kind: 'not-a-certificate' });
    expect(await problemOf('{"kind":"something"}')).toMatchObject({ kind: 'not-a-certificate' });
    expect(await problemOf('%PDF-1.7\n')).toMatchObject({ kind: 'unreadable' });
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 400 }), async (bytes) => {
        expect(await holds(Buffer.from(bytes))).toBe(false);
        expect(await holds(Buffer.concat([Buffer.from('%PDF-1.7\n'), Buffer.from(bytes)]))).toBe(false);
      }),
      { numRuns: 100, seed: 20_260_106 },
    );
  });
});
