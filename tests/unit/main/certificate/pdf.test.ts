import { PDFiumLibrary } from '@hyzyla/pdfium';
import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { canonicalJson, contentHash } from '../../../../src/main/certificate/hash.ts';
import { type CertificateLook, certificatePdf, type Issue } from '../../../../src/main/certificate/pdf.ts';
import { firstPagePicture, pagePictures } from '../../../../src/main/certificate/picture.ts';
import {
  type CertificateContent,
  certificateContent,
} from '../../../../src/shared/presentation/certificate/content.ts';
import { temporaryFolder } from '../../../support/folder.ts';
import { issued, testBench } from '../../../support/records/issued.ts';
import { leaves, wholeNotebook } from '../../../support/records/wholeBuild.ts';
import { PNG } from 'pngjs';

const a4 = { page: 'a4', units: 'metric', everything: true } as const;
const told = ({ data }: Issue): CertificateContent => certificateContent({ id: data.build, entries: data.notebook });
const completeIssue = issued(wholeNotebook({ trials: 2, stations: 12 }));
const complete = told(completeIssue);
const incompleteIssue = issued(wholeNotebook({ trials: 1, stations: 4, without: leaves('total-torque', 'mark') }));
const incomplete = told(incompleteIssue);
const drawn = async (issue: Issue, look: CertificateLook): Promise<Buffer> => certificatePdf(issue, look, testBench);
/** The same build under another title. */
const titled = (title: string): Issue =>
  issued(
    completeIssue.data.notebook.map((entry) =>
      entry.deed.kind === 'started' ? { ...entry, deed: { ...entry.deed, title } } : entry,
    ),
  );

/** The words of each page as another program reads them, with every kind of space as a plain one. */
async function pageWords(pdf: Buffer): Promise<readonly string[]> {
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(pdf);
  const words = [...document.pages()].map((page) => page.getText().replaceAll(/[\s\u00a0\ufffe]+/gu, ' '));
  document.destroy();
  library.destroy();
  return words;
}

/** Other programs' judgement counts where they are installed. */
const isThere = (program: string): boolean => spawnSync(program, ['--version']).error === undefined;

/** Structure and content of the file as text: dictionaries as they are, streams without their compression. */
function plainText(pdf: Buffer): string {
  const text = pdf.toString('latin1');
  return text.replaceAll(/\nstream\n([\s\S]*?)\nendstream/gu, (whole, data: string) => {
    try {
      return inflateSync(Buffer.from(data, 'latin1')).toString('latin1');
    } catch {
      return whole;
    }
  });
}

describe('the certificate as a PDF', { timeout: 120_000 }, () => {
  let pdf: Buffer;
  let pages: readonly string[];
  let words: string;
  let inside: string;
  beforeAll(async () => {
    pdf = await drawn(completeIssue, a4);
    pages = await pageWords(pdf);
    words = pages.join(' ');
    inside = plainText(pdf);
  }, 120_000);

  it('gives the same bytes for the same content and look', async () => {
    expect((await drawn(completeIssue, a4)).equals(pdf)).toBe(true);
  });

  it('gives another file for other units or paper', async () => {
    const letter = await drawn(completeIssue, { page: 'letter', units: 'metric' });
    expect(letter.toString('latin1')).toContain('/MediaBox [0 0 612 792]');
    expect((await drawn(completeIssue, { page: 'a4', units: 'inch' })).equals(pdf)).toBe(false);
  });

  it('declares PDF/A-3b, with colours, language, fixed dates and identity', () => {
    expect(inside).toContain('<pdfaid:part>3</pdfaid:part>');
    expect(inside).toContain('<pdfaid:conformance>B</pdfaid:conformance>');
    expect(inside).toContain('/S /GTS_PDFA1');
    expect(inside).toContain('/Lang (en-GB)');
    const [, first, second] = /\/ID \[<([0-9a-f]+)> <([0-9a-f]+)>\]/u.exec(inside) ?? [];
    expect(first).toBeDefined();
    expect(first).toBe(second);
    const dates = [...inside.matchAll(/\(D:(\d{8})/gu)].map((match) => match[1]);
    expect(new Set(dates)).toEqual(new Set(['20260105']));
  });

  it('embeds every font it uses', () => {
    const fonts = [...inside.matchAll(/\/Type \/FontDescriptor[\s\S]*?endobj/gu)].map(([font]) => font);
    expect(fonts.length).toBeGreaterThanOrEqual(3);
    for (const font of fonts) expect(font).toMatch(/\/FontName \/[A-Z]{6}\+Inter-\w+[\s\S]*\/FontFile2 \d+ 0 R/u);
    expect(inside).not.toMatch(/\/Type \/Font\s+\/BaseFont \/Helvetica/u);
  });

  it('carries its data as an associated file', () => {
    expect(inside).toContain('/AFRelationship /Data');
    expect(inside).toMatch(/\/AF \[\d+ 0 R \d+ 0 R \d+ 0 R\]/u);
    expect(inside).toContain('/Subtype /application#2Fjson');
    expect(inside).toContain(`sha256:${contentHash(completeIssue.data)}`);
  });

  it('gives each file its checksum as 16 bytes, and the same dates twice', () => {
    const sums = [...inside.matchAll(/\/CheckSum <([0-9a-f]{32})>/gu)].map(([, sum]) => sum);
    const data = createHash('md5').update(canonicalJson(completeIssue.data)).digest('hex');
    const csv = createHash('md5').update(completeIssue.csv).digest('hex');
    expect(new Set(sums)).toEqual(new Set([data, csv]));
    expect(sums).toHaveLength(2);
    expect(inside).not.toContain('/CheckSum (');
    const at = `${complete.asOf.slice(0, 19)}Z`;
    expect(inside).toContain(`<xmp:CreateDate>${at}</xmp:CreateDate>`);
    expect(inside).toContain(`<xmp:ModifyDate>${at}</xmp:ModifyDate>`);
  });

  it('bears the fingerprint of the bench on every page', () => {
    for (const page of pages) expect(page).toContain(testBench.fingerprint);
  });

  it.skipIf(!isThere('qpdf'))('is sound to another program, and lets its files be taken out', () => {
    const file = join(temporaryFolder(), 'c.pdf');
    writeFileSync(file, pdf);
    expect(execFileSync('qpdf', ['--check', file], { encoding: 'utf8' })).toContain(
      'No syntax or stream encoding errors',
    );
    for (const [name, bytes] of [
      ['certificate.json', canonicalJson(completeIssue.data)],
      ['readings.csv', completeIssue.csv],
    ] as const) {
      const key = `--show-attachment=${name}`;
      expect(execFileSync('qpdf', [key, file], { encoding: 'utf8', maxBuffer: 1e8 }) === bytes).toBe(true);
    }
  });

  it.skipIf(!isThere('pdfdetach'))('lists its three files to a second program', () => {
    const file = join(temporaryFolder(), 'c.pdf');
    writeFileSync(file, pdf);
    const listed = execFileSync('pdfdetach', ['-list', file], { encoding: 'utf8' });
    expect(listed).toContain('3 embedded files');
    for (const name of ['certificate.json', 'readings.csv', 'signature.json']) expect(listed).toContain(name);
  });

  it('is tagged: one document with headings, tables, lists and figures with alternative text', () => {
    expect(inside).toMatch(/\/MarkInfo \d+ 0 R/u);
    const count = (type: string): number => inside.match(new RegExp(String.raw`/S /${type}\s`, 'gu'))?.length ?? 0;
    expect(count('Document')).toBe(1);
    expect(count('H1')).toBe(1);
    expect(count('H2')).toBeGreaterThanOrEqual(complete.assemblies.length + 3);
    expect(count('TH')).toBeGreaterThan(20);
    expect(count('TD')).toBeGreaterThan(100);
    expect(count('LI')).toBeGreaterThanOrEqual(complete.cautions.length);
    const figures = [...inside.matchAll(/\/S \/Figure[\s\S]*?endobj/gu)].map(([figure]) => figure);
    // While it comes apart neither backlash nor a mark is read, and so nothing is drawn.
    const withDrawings = complete.assemblies.filter(({ phase }) => phase !== 'stripping');
    // On the first page ring, run and marks, beside each other the marks of each, and in full both of each.
    expect(figures.length).toBe(3 + withDrawings.length + withDrawings.length * 2);
    for (const figure of figures) expect(figure).toMatch(/\/Alt \(/u);
  });

  it('closes every piece of marked content it opens', () => {
    const opened = inside.match(/ (?:BDC|BMC)\n/gu)?.length ?? 0;
    expect(opened).toBeGreaterThan(500);
    expect(inside.match(/\nEMC\n/gu)?.length).toBe(opened);
  });

  it('tells every station of every assembly with its reading', () => {
    for (const { checks, phase } of complete.assemblies) {
      if (phase === 'stripping') continue;
      const result = checks.find(({ check }) => check === 'backlash')?.measurement?.result;
      expect(result?.kind).toBe('backlash');
      if (result?.kind !== 'backlash') continue;
      for (const [index, { number, value_mm }] of result.stations.entries())
        expect(words).toContain(`${number} ${index * 30}° ${Number(value_mm).toFixed(3)} `);
    }
  });

  it('marks what was typed, with its tool and resolution', () => {
    expect(words).toContain('typed: dial torque wrench reads to 1 N·m');
    expect(words).toContain('typed: micrometer reads to 0.001 mm');
    expect(pages[0]).toContain('Case bearing preload · typed');
  });

  it('gives the reason for every override, the source of every limit, every gauge and every note', () => {
    for (const { checks } of complete.assemblies)
      for (const { override } of checks) if (override !== undefined) expect(words).toContain(override.reason);
    for (const { source } of complete.specSheet?.limits ?? []) expect(words).toContain(source);
    for (const { gauge } of complete.gauges) expect(words).toContain(gauge.serial ?? gauge.label);
    for (const { text } of complete.notes) expect(words).toContain(text);
    for (const caution of complete.cautions) expect(words).toContain(caution);
    expect(words).toContain(complete.statement);
  });

  it('flags a gauge that was past its calibration date', () => {
    expect(words).toContain('20 Nov 2025 past when it was used');
  });

  it('numbers its pages and carries the hash on each', () => {
    for (const [index, page] of pages.entries()) {
      expect(page).toContain(`Page ${index + 1} of ${pages.length}`);
      expect(page).toContain(contentHash(completeIssue.data));
      expect(page).not.toContain('Incomplete');
    }
  });

  it('never says safe, correct or quiet', () => {
    expect(words).not.toMatch(/\b(?:safe|safely|correct|correctly|quiet|guarantee)/iu);
  });

  it('says on every page that it is incomplete, and on the first what is missing', async () => {
    const found = await pageWords(await drawn(incompleteIssue, a4));
    for (const page of found) expect(page).toContain('Incomplete · Page');
    expect(found[0]).toContain('What is missing:');
    expect(incomplete.missing.length).toBeGreaterThan(0);
    for (const missing of incomplete.missing) expect(found.slice(0, 2).join(' ')).toContain(missing);
  });

  it('keeps a title apart from the XML around it', async () => {
    const text = plainText(await drawn(titled('Axle <A> & sons'), a4));
    expect(text).toContain('<rdf:li xml:lang="x-default">Axle &lt;A&gt; &amp; sons</rdf:li>');
    expect(text).toContain('(Axle <A> & sons)');
  });

  it.each(['Axle 日本', 'Axle محرك'])(
    'shows boxes for the signs the family lacks, and says so on every page: %s',
    async (title) => {
      const found = await pageWords(await drawn(titled(title), a4));
      expect(found[0]).toMatch(/Axle □+ /u);
      for (const page of found) expect(page).toContain('is a sign that cannot be set here');
      expect(pages.join(' ')).not.toContain('cannot be set here');
    },
  );

  it.each([
    ['a4', 'metric', 4],
    ['letter', 'metric', 4],
    ['a4', 'inch', 12],
  ] as const)(
    'takes two to four pages for two trials on %s in %s with %i stations, and says it all the same',
    async (page, units, stations) => {
      const issue = issued(wholeNotebook({ trials: 2, stations }));
      const found = await pageWords(await drawn(issue, { page, units }));
      expect(found.length).toBeGreaterThanOrEqual(2);
      expect(found.length).toBeLessThanOrEqual(4);
      const all = found.join(' ');
      const content = told(issue);
      for (const { checks } of content.assemblies)
        for (const { override } of checks) if (override !== undefined) expect(all).toContain(override.reason);
      for (const { source } of content.specSheet?.limits ?? []) expect(all).toContain(source);
      for (const { gauge } of content.gauges) expect(all).toContain(gauge.serial ?? gauge.label);
      for (const { text } of content.notes) expect(all).toContain(text);
      for (const caution of content.cautions) expect(found[0]).toContain(caution);
      expect(found[0]).toContain('Signature');
      expect(all).toContain(`${stations} at ${Math.round((360 / stations) * (stations - 1))}°`);
      // Nothing stands alone on the last page.
      expect((found.at(-1) ?? '').length).toBeGreaterThan(400);
    },
  );

  it('is drawn as pictures of the asked width, with ink on them', async () => {
    const [all, first] = [await pagePictures(pdf, 300), await firstPagePicture(pdf, 300)];
    expect(all).toHaveLength(pages.length);
    expect(all[0]?.equals(first)).toBe(true);
    const { width, height, data } = PNG.sync.read(first);
    expect(Math.abs(width - 300)).toBeLessThanOrEqual(1);
    expect(height / width).toBeCloseTo(Math.SQRT2, 1);
    const dark = data.filter((value, index) => index % 4 === 0 && value < 128).length;
    expect(dark / (width * height)).toBeGreaterThan(0.005);
    expect(dark / (width * height)).toBeLessThan(0.3);
  });
});
