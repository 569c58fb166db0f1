import PDFDocument from 'pdfkit';
import type { Block, CertificateLook } from '../../shared/presentation/certificate/page.ts';
import { blocksToPaper } from './blocks.ts';
import { fontFiles, fontName, scale } from './letters.ts';
import { Paper } from './paper.ts';

/** A small paper as a PDF to be printed: no certificate, so that nothing is attached to it and nobody signs it. */
export async function slipPdf(blocks: readonly Block[], { page }: CertificateLook, title: string): Promise<Buffer> {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    bufferPages: true,
    tagged: true,
    displayTitle: true,
    lang: 'en-GB',
    font: '',
    info: { Title: title },
  });
  for (const weight of [400, 500, 600, 700] as const) pdf.registerFont(fontName(weight), fontFiles[weight]);
  const chunks: Uint8Array[] = [];
  const done = Promise.withResolvers<Buffer>();
  pdf.on('data', (chunk: Uint8Array) => chunks.push(chunk));
  pdf.on('end', () => done.resolve(Buffer.concat(chunks)));
  pdf.on('error', done.reject);
  const root = pdf.struct('Document');
  pdf.addStructure(root);
  const paper = new Paper(pdf, page, root);
  blocksToPaper(paper, blocks, { onShare: () => undefined, photoOf: () => undefined });
  if (paper.hasBoxes)
    paper.artifact(() => paper.line('□ is a sign that cannot be set here.', paper.left, paper.bottom, scale.footer));
  root.end();
  pdf.end();
  return done.promise;
}
