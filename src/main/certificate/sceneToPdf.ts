import type { Element, PathElement, Scene, Style, TextElement } from '../../shared/presentation/drawing/scene.ts';
import { colourOf, figureFeatures, fontName, onBaseline } from './letters.ts';
import { noCase } from '../../shared/basics/noCase.ts';

type Pdf = PDFKit.PDFDocument;

/** Draws a scene with its top left corner at a place on the page: the same elements the screens show. */
export function sceneToPdf(pdf: Pdf, scene: Scene, at: { readonly x: number; readonly y: number }): void {
  elementsToPdf(pdf, scene.elements, at);
}

/** A state's mark or any other loose elements, moved to a place. */
export function elementsToPdf(
  pdf: Pdf,
  elements: readonly Element[],
  at: { readonly x: number; readonly y: number },
): void {
  pdf.save();
  pdf.translate(at.x, at.y);
  for (const element of elements) drawElement(pdf, element, 1);
  pdf.restore();
}

/** `opacity` is what the groups around it leave; elements of one group do not overlap in our drawings. */
function drawElement(pdf: Pdf, element: Element, opacity: number): void {
  switch (element.kind) {
    case 'path':
    case 'circle':
      drawShape(pdf, element, opacity);
      return;
    case 'text':
      drawText(pdf, element, opacity);
      return;
    case 'group':
      pdf.save();
      if (element.translate !== undefined) pdf.translate(element.translate.x, element.translate.y);
      if (element.rotate_deg !== undefined) pdf.rotate(element.rotate_deg);
      for (const child of element.elements) drawElement(pdf, child, opacity * (element.opacity ?? 1));
      pdf.restore();
      return;
    default:
      throw noCase(element);
  }
}

function drawShape(pdf: Pdf, element: PathElement | Extract<Element, { kind: 'circle' }>, opacity: number): void {
  if (element.kind === 'path' && element.d === '') return;
  if (element.fill === undefined && element.stroke === undefined) return;
  pdf.save();
  setStyle(pdf, element, opacity);
  if (element.kind === 'path') pdf.path(element.d);
  else pdf.circle(element.x, element.y, element.r);
  paint(pdf, element);
  pdf.restore();
}

/** The library takes a whole pattern of lengths, though its types know only the first. */
interface Dashing {
  dash(pattern: number | readonly number[], options: object): void;
}

function setStyle(pdf: Pdf, style: Style, opacity: number): void {
  const shown = opacity * (style.opacity ?? 1);
  if (shown < 1) pdf.opacity(shown);
  if (style.stroke === undefined) return;
  pdf.lineWidth(style.width ?? 1).lineJoin('round');
  pdf.lineCap(style.cap ?? 'butt');
  if (style.dash !== undefined) (pdf as Dashing).dash(style.dash, {});
}

function paint(pdf: Pdf, { fill, stroke }: Style): void {
  if (fill !== undefined && stroke !== undefined) pdf.fillAndStroke(colourOf(fill), colourOf(stroke));
  else if (fill !== undefined) pdf.fill(colourOf(fill));
  else if (stroke !== undefined) pdf.stroke(colourOf(stroke));
}

function drawText(pdf: Pdf, element: TextElement, opacity: number): void {
  const options = element.tabular ? { features: figureFeatures } : {};
  pdf.save();
  if (opacity < 1) pdf.opacity(opacity);
  pdf.font(fontName(element.weight)).fontSize(element.size).fillColor(colourOf(element.ink));
  const width = element.anchor === 'start' ? 0 : pdf.widthOfString(element.text, options);
  const x = element.x - (element.anchor === 'middle' ? width / 2 : width);
  pdf.text(element.text, x, element.y, { ...options, ...onBaseline });
  pdf.restore();
}
