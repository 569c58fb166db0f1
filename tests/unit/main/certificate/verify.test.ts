import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { readAttachment } from '../../../../src/main/certificate/attachment.ts';
import { canonicalContent, contentHash } from '../../../../src/main/certificate/hash.ts';
import { certificatePdf } from '../../../../src/main/certificate/pdf.ts';
import { pagesAsDrawn, verifyCertificate } from '../../../../src/main/certificate/verify.ts';
import { certificateContent } from '../../../../src/shared/presentation/certificate/content.ts';
import { wholeNotebook } from '../../../support/records/wholeBuild.ts';

const content = certificateContent({ id: 'b1', entries: wholeNotebook({ trials: 1, stations: 4 }) });
type Json = Record<string, unknown>;
const changed = (change: (data: Json) => void): Buffer => {
  const data = JSON.parse(JSON.stringify(content)) as Json;
  change(data);
  return Buffer.from(JSON.stringify(data));
};
const problemOf = (bytes: Buffer) => {
  const answer = verifyCertificate(bytes);
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

describe('checking a certificate', { timeout: 60_000 }, () => {
  let pdf: Buffer;
  beforeAll(async () => {
    pdf = await certificatePdf(content, { page: 'letter', units: 'inch' });
  }, 60_000);

  it('reads the attached data back as they were', () => {
    const read = readAttachment(pdf);
    expect(read.ok && read.value.data.toString('utf8')).toBe(canonicalContent(content));
    expect(read.ok && read.value.printed).toEqual([contentHash(content), contentHash(content)]);
  });

  it('finds that PDF and data hold together', async () => {
    const { sha256, complete } = { sha256: contentHash(content), complete: content.complete };
    expect(verifyCertificate(pdf)).toMatchObject({ ok: true, value: { sha256, complete, build: 'b1', from: 'pdf' } });
    const spaced = Buffer.from(JSON.stringify(content, undefined, 2));
    expect(verifyCertificate(spaced)).toMatchObject({ ok: true, value: { sha256, complete, from: 'json' } });
    expect(await pagesAsDrawn(pdf)).toEqual({ ok: true, value: true });
  });

  it('says what differs when a verdict was changed', () => {
    const bytes = changed((data) => {
      (data as { complete: boolean }).complete = !content.complete;
    });
    expect(problemOf(bytes)).toMatchObject({ kind: 'altered' });
    expect(problemOf(bytes)?.sentence).toContain(
      `complete says ${!content.complete}, its notebook gives ${content.complete}`,
    );
  });

  it('notices any one figure or word that was changed outside the notebook', () => {
    const paths = leavesOf(content).filter(([top]) => top !== 'notebook' && top !== 'kind' && top !== 'version');
    const safeToName = paths.filter((path) => path.join('.') !== 'build.id');
    fc.assert(
      fc.property(fc.constantFrom(...safeToName), (path) => {
        expect(problemOf(changed((data) => replace(data, path)))?.kind).toBe('altered');
      }),
      { numRuns: 60, seed: 20_260_105 },
    );
  });

  it('notices a reading changed in the notebook: the hash in the PDF is another one', () => {
    const entries = content.notebook.map((entry) =>
      entry.deed.kind === 'noted' ? { ...entry, deed: { ...entry.deed, text: 'something else' } } : entry,
    );
    const other = certificateContent({ id: 'b1', entries });
    const text = pdf.toString('latin1');
    const forged = Buffer.from(text.replaceAll(contentHash(content), contentHash(other)), 'latin1');
    expect(problemOf(forged)).toMatchObject({ kind: 'altered' });
    expect(problemOf(forged)?.sentence).toContain(contentHash(content).slice(0, 12));
  });

  it('notices pages that were drawn over', async () => {
    const text = pdf.toString('latin1');
    const start = text.indexOf('/MediaBox [0 0 612 792]');
    const forged = Buffer.from(`${text.slice(0, start)}/MediaBox [0 0 612 793]${text.slice(start + 23)}`, 'latin1');
    expect(await pagesAsDrawn(forged)).toEqual({ ok: true, value: false });
  });

  it('refuses what is no certificate, is newer, or was written anew, each with its reason', () => {
    expect(problemOf(Buffer.from('hello'))).toMatchObject({ kind: 'not-a-certificate' });
    expect(problemOf(Buffer.from('{"kind":"something"}'))).toMatchObject({ kind: 'not-a-certificate', field: 'kind' });
    expect(problemOf(changed((data) => Object.assign(data, { version: 2 })))).toMatchObject({
      kind: 'newer-certificate',
    });
    expect(problemOf(Buffer.from('%PDF-1.7\nnothing'))).toMatchObject({ kind: 'unreadable' });
    expect(problemOf(Buffer.concat([pdf, Buffer.from('1 0 obj\n<<>>\nendobj\n')]))).toMatchObject({
      kind: 'unreadable',
    });
    expect(problemOf(changed((data) => Object.assign(data, { notebook: [] })))).toMatchObject({ kind: 'altered' });
  });

  it('answers for a file cut off or spoilt anywhere, and never throws', () => {
    fc.assert(
      fc.property(fc.nat(pdf.length - 1), fc.integer({ min: 1, max: 255 }), (at, by) => {
        const spoilt = Buffer.from(pdf);
        spoilt[at] = ((spoilt[at] ?? 0) + by) % 256;
        for (const bytes of [pdf.subarray(0, at), spoilt]) {
          const answer = verifyCertificate(bytes);
          if (!answer.ok) expect(answer.problem.sentence.length).toBeGreaterThan(10);
        }
      }),
      { numRuns: 40, seed: 20_260_106 },
    );
  });
});
