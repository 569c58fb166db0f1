import PDFDocument from 'pdfkit';
import type { CertificateData } from '../../shared/job/certifying/certificateData.ts';
import { type CertificateContent, certificateContent } from '../../shared/presentation/certificate/content.ts';
import type { CertificateLook } from '../../shared/presentation/certificate/page.ts';
import { certificateBlocks } from '../../shared/presentation/certificate/telling.ts';
import { fingerprintOf } from '../store/signing.ts';
import { blocksToPaper } from './blocks.ts';
import { attach, fileNames, mendChecksums, signPdf } from './filing.ts';
import { furnish } from './furniture.ts';
import { canonicalJson, contentHash } from './hash.ts';
import { fontFiles, fontName } from './letters.ts';
import { type Margins, Paper } from './paper.ts';
import type { PhotoOf } from './photos.ts';
import { dataSignature, noughts, type Signature, type Signer } from './signature.ts';

export type { CertificateLook } from '../../shared/presentation/certificate/page.ts';

/** All that goes into a certificate's file. */
export interface Issue {
  readonly data: CertificateData;
  /** The file of readings that the data name by its hash. */
  readonly csv: string;
  /** Its photos, where the bench has them. */
  readonly photoOf?: PhotoOf;
}

/**
 * The certificate as a PDF (declared PDF/A-3b, tagged) with its data, its readings and its signature attached. The same
 * issue, look and key give the same bytes: every date in it is one of the data.
 */
export async function certificatePdf(
  issue: Issue,
  look: CertificateLook,
  signer: Signer,
  onShare?: (share: number) => void,
): Promise<Buffer> {
  const signature = dataSignature(issue.data.bench.key, canonicalJson(issue.data), signer);
  return signPdf(await drawnPdf(issue, look, signature, onShare), signer);
}

/** The same with noughts where the signature of the file goes: what is signed. */
export async function drawnPdf(
  issue: Issue,
  look: CertificateLook,
  signature: Signature,
  onShare: (share: number) => void = () => undefined,
): Promise<Buffer> {
  const usual = drawnPages(issue, look, { margins: 'usual', onShare });
  const { endsAlone, firstRanOver } = usual.paper;
  const { pdf, bytes } = endsAlone || firstRanOver ? closer(issue, look, usual) : usual;
  attachAll(pdf, issue, signature);
  pdf.end();
  return mendChecksums(await bytes);
}

interface Drawn {
  readonly pdf: PDFKit.PDFDocument;
  readonly paper: Paper;
  readonly bytes: Promise<Buffer>;
}

/** A few lines alone on a page of their own are fetched back onto the one before, where closer margins find them room. */
function closer(issue: Issue, look: CertificateLook, usual: Drawn): Drawn {
  const close = drawnPages(issue, look, { margins: 'close', onShare: () => undefined });
  const isBetter =
    close.paper.pageCount < usual.paper.pageCount || (usual.paper.firstRanOver && !close.paper.firstRanOver);
  return isBetter ? close : usual;
}

interface Drawing {
  readonly margins: Margins;
  readonly onShare: (share: number) => void;
}

function drawnPages(
  { data, photoOf = () => undefined }: Issue,
  look: CertificateLook,
  { margins, onShare }: Drawing,
): Drawn {
  const sha256 = contentHash(data);
  const content = certificateContent({ id: data.build, entries: data.notebook });
  const pdf = openDocument(content, look, sha256);
  const bytes = collected(pdf);
  const root = pdf.struct('Document');
  pdf.addStructure(root);
  const paper = new Paper(pdf, look.page, root, margins);
  const { bench, shop, revision, replaces } = data;
  const signed = { sha256, bench: bench.name, fingerprint: fingerprintOf(bench.key), revision, replaces, shop };
  blocksToPaper(paper, certificateBlocks(content, look, signed), { onShare, photoOf });
  furnish(paper, content, signed);
  root.end();
  return { pdf, paper, bytes };
}

function openDocument(content: CertificateContent, look: CertificateLook, sha256: string): PDFKit.PDFDocument {
  const pdf = new CertificateDocument({
    autoFirstPage: false,
    bufferPages: true,
    pdfVersion: '1.7',
    subset: 'PDF/A-3b',
    tagged: true,
    displayTitle: true,
    lang: 'en-GB',
    // No font to begin with: the library would open one of its own, or one of ours a second time at every use.
    font: '',
    info: {
      Title: content.build.title,
      Author: content.build.technician,
      Creator: `Axlewright certificate, ${look.page}, ${look.units}${look.everything === true ? ', everything' : ''}`,
      Keywords: `sha256:${sha256}`,
      CreationDate: new Date(content.asOf),
      ModDate: new Date(content.asOf),
    },
  });
  for (const weight of [400, 500, 600, 700] as const) pdf.registerFont(fontName(weight), fontFiles[weight]);
  return pdf;
}

/**
 * The library writes a title into its XML as it is; one with an ampersand would break it. It also leaves out when the file
 * was last changed, which stands in the file's other information and must stand in both alike (ISO 19005-3, 6.6.3; from memory).
 */
class CertificateDocument extends PDFDocument {
  override endMetadata(): void {
    const plain = this.info;
    this.info = Object.fromEntries(
      Object.entries(plain).map(([key, value]) => [key, typeof value === 'string' ? escaped(value) : value]),
    ) as typeof plain;
    const changed = `${plain.ModDate?.toISOString().split('.')[0]}Z`;
    this.appendXML(`
        <rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/">
            <xmp:ModifyDate>${changed}</xmp:ModifyDate>
        </rdf:Description>`);
    super.endMetadata();
    this.info = plain;
  }
}

const escaped = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

function attachAll(pdf: PDFKit.PDFDocument, { data, csv }: Issue, signature: Signature): void {
  const at = new Date(data.asOf);
  attach(
    pdf,
    {
      name: fileNames.data,
      bytes: Buffer.from(canonicalJson(data)),
      type: 'application/json',
      description: 'All data of this certificate, with the whole notebook of the build',
      relationship: 'Data',
    },
    at,
  );
  attach(
    pdf,
    {
      name: fileNames.readings,
      bytes: Buffer.from(csv),
      type: 'text/csv',
      description: 'The readings that its measurements rest on',
      relationship: 'Data',
    },
    at,
  );
  attach(
    pdf,
    {
      name: fileNames.signature,
      bytes: Buffer.from(canonicalJson({ ...signature, file: noughts })),
      type: 'application/json',
      description: 'Signatures over the data and over this file, by the key of the bench',
      relationship: 'Supplement',
    },
    at,
  );
}

async function collected(pdf: PDFKit.PDFDocument): Promise<Buffer> {
  const chunks: Uint8Array[] = [];
  return new Promise((resolve, reject) => {
    pdf.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    pdf.on('end', () => resolve(Buffer.concat(chunks)));
    pdf.on('error', reject);
  });
}
