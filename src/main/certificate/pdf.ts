import PDFDocument from 'pdfkit';
import type { CertificateContent } from '../../shared/presentation/certificate/content.ts';
import type { CertificateLook } from '../../shared/presentation/certificate/page.ts';
import { certificateBlocks } from '../../shared/presentation/certificate/telling.ts';
import { blocksToPaper } from './blocks.ts';
import { furnish } from './furniture.ts';
import { canonicalContent, contentHash } from './hash.ts';
import { fontFiles, fontName } from './letters.ts';
import { Paper } from './paper.ts';

export type { CertificateLook } from '../../shared/presentation/certificate/page.ts';

/** The name under which the data lie in the PDF. */
export const attachmentName = 'certificate.json';

/**
 * The certificate as a PDF (declared PDF/A-3b, tagged), with the data it is drawn from attached.
 * The same content and look give the same bytes: every date in it is one of the content.
 */
export async function certificatePdf(content: CertificateContent, look: CertificateLook): Promise<Buffer> {
  const sha256 = contentHash(content);
  const pdf = openDocument(content, look, sha256);
  const bytes = collected(pdf);
  const root = pdf.struct('Document');
  pdf.addStructure(root);
  const paper = new Paper(pdf, look.page, root);
  blocksToPaper(paper, certificateBlocks(content, look, sha256));
  furnish(paper, content, sha256);
  root.end();
  attach(pdf, content);
  pdf.end();
  return bytes;
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
      Creator: `Axlewright certificate, ${look.page}, ${look.units}`,
      Keywords: `sha256:${sha256}`,
      CreationDate: new Date(content.asOf),
      ModDate: new Date(content.asOf),
    },
  });
  for (const weight of [400, 500, 600, 700] as const) pdf.registerFont(fontName(weight), fontFiles[weight]);
  return pdf;
}

/** The library writes a title into its XML as it is; one with an ampersand would break it. */
class CertificateDocument extends PDFDocument {
  override endMetadata(): void {
    const plain = this.info;
    this.info = Object.fromEntries(
      Object.entries(plain).map(([key, value]) => [key, typeof value === 'string' ? escaped(value) : value]),
    ) as typeof plain;
    super.endMetadata();
    this.info = plain;
  }
}

const escaped = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

function attach(pdf: PDFKit.PDFDocument, content: CertificateContent): void {
  const at = new Date(content.asOf);
  pdf.file(Buffer.from(canonicalContent(content)), {
    name: attachmentName,
    type: 'application/json',
    description: 'All data of this certificate, with the whole notebook of the build',
    relationship: 'Data',
    creationDate: at,
    modifiedDate: at,
  } as PDFKit.Mixins.PDFAttachmentOptions);
}

async function collected(pdf: PDFKit.PDFDocument): Promise<Buffer> {
  const chunks: Uint8Array[] = [];
  return new Promise((resolve, reject) => {
    pdf.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    pdf.on('end', () => resolve(Buffer.concat(chunks)));
    pdf.on('error', reject);
  });
}
