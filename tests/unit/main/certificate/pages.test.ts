import { PDFiumLibrary } from '@hyzyla/pdfium';
import jpeg from 'jpeg-js';
import { beforeAll, describe, expect, it } from 'vitest';
import { sha256Of } from '../../../../src/main/certificate/hash.ts';
import { type CertificateLook, certificatePdf, type Issue } from '../../../../src/main/certificate/pdf.ts';
import { photosIn } from '../../../../src/main/certificate/photosIn.ts';
import { verifyCertificate } from '../../../../src/main/certificate/verify.ts';
import { certificateContent } from '../../../../src/shared/presentation/certificate/content.ts';
import { photoBlocks } from '../../../../src/shared/presentation/certificate/photos.ts';
import type { Deed, Entry } from '../../../../src/shared/job/records/notebook.ts';
import { issued, measuredNotebook, testBench } from '../../../support/records/issued.ts';
import { wholeNotebook } from '../../../support/records/wholeBuild.ts';

const a4 = { page: 'a4', units: 'metric' } as const;
const inches = { page: 'letter', units: 'inch' } as const;

async function pagesOf(issue: Issue, look: CertificateLook): Promise<readonly string[]> {
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(await certificatePdf(issue, look, testBench));
  const words = [...document.pages()].map((page) => page.getText().replaceAll(/[\s\u00a0\ufffe]+/gu, ' '));
  document.destroy();
  library.destroy();
  return words;
}

/** A picture of one colour, every other one upright. */
function picture(n: number): Buffer {
  const [width, height] = n % 2 === 0 ? [160, 120] : [120, 160];
  return jpeg.encode({ width, height, data: Buffer.alloc(width * height * 4, 20 * n) }, 80).data;
}

const pictures = Array.from({ length: 14 }, (_, n) => picture(n));
const byHash = new Map(pictures.map((bytes) => [sha256Of(bytes), bytes]));

/** A whole build with so many photos of its last trial. */
function photographed(count: number): Issue {
  const entries = wholeNotebook({ trials: 1, stations: 4 });
  const assembly = entries.findLast(({ deed }) => deed.kind === 'assembled')?.id ?? '';
  const more = pictures.slice(0, count).map((bytes, n): Deed => {
    const [width, height] = n % 2 === 0 ? [160, 120] : [120, 160];
    return { kind: 'photographed', assembly, photo: { sha256: sha256Of(bytes), width, height }, from: 'folder' };
  });
  const issue = issued(measuredNotebook({ trials: 1, stations: 4, more }));
  return { ...issue, photoOf: (sha256) => byHash.get(sha256) };
}

describe('photos on a certificate', { timeout: 60_000 }, () => {
  let pdf: Buffer;
  beforeAll(async () => {
    pdf = await certificatePdf(photographed(12), a4, testBench);
  });

  it('stand in it byte for byte as the bench keeps them, so that the data name them by hash', () => {
    const found = photosIn(pdf);
    for (const bytes of pictures.slice(0, 12)) expect(found(sha256Of(bytes))).toEqual(bytes);
    expect(found(sha256Of(picture(13)))).toBeUndefined();
  });

  it('are drawn again from the file alone, and not one of their bytes can be changed', async () => {
    expect(await verifyCertificate(pdf)).toMatchObject({ ok: true, value: { holds: true, sameWordsToday: true } });
    const at = pdf.indexOf(pictures[5] ?? '') + 300;
    const changed = Buffer.from(pdf);
    changed[at] = (changed[at] ?? 0) ^ 1;
    expect((await verifyCertificate(changed)).ok).toBe(false);
  });

  it('are named by the first signs of their hashes; of more than twelve the newest, and all of them with everything', () => {
    const { data } = photographed(14);
    const content = certificateContent({ id: data.build, entries: data.notebook });
    const [usual, all] = [false, true].map((everything) => JSON.stringify(photoBlocks(content, everything)));
    expect(usual).toContain('The newest 12 of 14.');
    expect(usual).toContain(`· ${sha256Of(picture(13)).slice(0, 8)}`);
    expect(usual).not.toContain(sha256Of(picture(0)).slice(0, 8));
    expect(all).toContain(`· ${sha256Of(picture(0)).slice(0, 8)}`);
    expect(photoBlocks({ photos: [] }, true)).toEqual([]);
  });

  it('are told as missing where the bench does not have them', async () => {
    const { photoOf: _, ...without } = photographed(1);
    expect((await pagesOf(without, a4)).join(' ')).toContain('Not kept by this bench.');
  });
});

const long =
  'Reconditioned rear axle of the works lorry with the extended wheelbase, second set after the first went back';

const renamed = (entries: readonly Entry[], names: { readonly title: string; readonly technician: string }): Issue =>
  issued(entries.map((one) => (one.deed.kind === 'started' ? { ...one, deed: { ...one.deed, ...names } } : one)));

describe('the hardest pages', { timeout: 60_000 }, () => {
  it('keep the line to sign on the first one, however long the names are', async () => {
    const issue = renamed(wholeNotebook({ trials: 2, stations: 8 }), {
      title: long,
      technician: 'Bartholomew Featherstonehaugh of the second shift',
    });
    const shop = { name: long, address: `${long}\n${long}` };
    const [first = '', second = ''] = await pagesOf({ ...issue, data: { ...issue.data, shop } }, inches);
    expect(first).toContain('Signature');
    expect(second.startsWith('What it rests on')).toBe(true);
  });

  it('show every script right, or as boxes with a word, and never turned round', async () => {
    const boxed = ['محمد 4711 علي', 'דוד 2026 לוי', 'สมชาย 12', '王小明 8', 'रमेश 5'];
    const set = ['Ωμέγα Жуков 3', 'Nguyễn Thị Hồng 9'];
    const notes = (texts: readonly string[]): Deed[] => texts.map((text) => ({ kind: 'noted', topic: 'note', text }));
    const one = await pagesOf(issued(wholeNotebook({ trials: 1, stations: 4, more: notes([...boxed, ...set]) })), a4);
    const all = one.join(' ');
    for (const shown of [/: □+ 4711 □+/u, /: □+ 2026 □+/u, /: □+ 12/u, /: □□□ 8/u, /: □+ 5/u])
      expect(all).toMatch(shown);
    for (const text of set) expect(all).toContain(text);
    for (const page of one) expect(page).toContain('is a sign that cannot be set here');
    const other = await pagesOf(issued(wholeNotebook({ trials: 1, stations: 4, more: notes(set) })), a4);
    expect(other.join(' ')).not.toContain('cannot be set here');
  });

  it('call no doubt nothing, and part no number from its unit', async () => {
    const all = (await pagesOf(issued(wholeNotebook({ trials: 2, stations: 60 })), inches)).join(' ');
    expect(all).not.toMatch(/\b0\.0000 in\b/u);
    expect(all).toContain('0.00003 in');
    // The doubt of a fastener's torque in the unit of that torque.
    expect(all).toMatch(/59\.0 lb-ft 0\.4 lb-ft/u);
  });
});
