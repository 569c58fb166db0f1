import type { Logo } from '../../shared/job/certifying/certificateData.ts';
import type { TitleBlock, VerdictBlock } from '../../shared/presentation/certificate/page.ts';
import { circle } from '../../shared/presentation/drawing/scene.ts';
import { paragraph } from './flow.ts';
import { scale } from './letters.ts';
import type { Paper } from './paper.ts';
import { elementsToPdf } from './sceneToPdf.ts';
import { listToPaper } from './wording.ts';

export function titleToPaper(paper: Paper, { left, right, logo, words, under }: TitleBlock): void {
  const strip = { x: paper.left, width: paper.width };
  right.forEach((line, index) => atRight(paper, line, paper.y + index * scale.quiet.line));
  const top = paper.y;
  const beside = logo === undefined ? 0 : logoToPaper(paper, logo, left[0] ?? '') + logoGap;
  const half = { x: strip.x + beside, width: strip.width * 0.6 - beside };
  left.forEach((line, index) => {
    const letters = index === 0 && left.length > 1 ? scale.part : scale.quiet;
    if (line !== '') paragraph(paper, line, { letters, strip: half });
  });
  if (logo !== undefined) paper.y = Math.max(paper.y, top + logoSize.height);
  paper.y += 4;
  // A long name must not push the page's end onto the next.
  const isLong = paper.wrap(words, scale.title, strip.width).length > 1;
  paragraph(paper, words, { letters: isLong ? scale.longTitle : scale.title, strip }, { type: 'H1' });
  paper.y += 3;
  for (const line of under) paragraph(paper, line, { letters: scale.quiet, strip });
}

/** As much as two lines of words are high, and no wider than leaves room for them. */
const logoSize = { width: 110, height: 30 };
const logoGap = 10;

/** Gives the width it takes. */
function logoToPaper(paper: Paper, { jpeg_base64, width, height }: Logo, shop: string): number {
  const share = Math.min(logoSize.width / width, logoSize.height / height);
  const [across, high] = [width * share, height * share];
  const [x, y] = [paper.left, paper.y];
  const figure = paper.pdf.struct(
    'Figure',
    { alt: `Logo of ${shop}`, bbox: [x, y, x + across, y + high] } as PDFKit.Mixins.StructureElementOptions,
    () => paper.pdf.image(Buffer.from(jpeg_base64, 'base64'), x, y, { width: across, height: high }),
  );
  paper.root.add(figure);
  return across;
}

/** A line at the right margin that takes no room of its own. */
function atRight(paper: Paper, words: string, y: number): void {
  const struct = paper.tag(paper.root, 'P');
  struct.add(() => paper.line(words, paper.right - paper.measure(words, scale.quiet), y, scale.quiet));
  struct.end();
}

export function verdictToPaper(paper: Paper, { complete, words, under, missing, reach }: VerdictBlock): void {
  paper.y += 12;
  ruleBeside(paper, complete);
  paper.y += 7;
  // A full or an open disc in plain ink: the colours of the verdicts belong to readings alone.
  const at = { x: 0, y: 0 };
  const disc = complete ? circle(at, 5.5, { fill: 'text' }) : circle(at, 4.6, { stroke: 'text', width: 1.8 });
  const top = paper.y;
  paper.artifact(() => elementsToPdf(paper.pdf, [disc], { x: paper.left + 6, y: top + scale.verdict.line / 2 }));
  const strip = { x: paper.left + 20, width: paper.width - 20 };
  paragraph(paper, words, { letters: scale.verdict, strip });
  paragraph(paper, under, { letters: scale.body, strip });
  if (missing.length > 0) listToPaper(paper, { kind: 'list', items: missing }, strip);
  paper.y += 4;
  paragraph(paper, reach, { letters: scale.quiet, strip });
  paper.y += 7;
  ruleBeside(paper, complete);
  paper.y += 2;
}

/** What is not complete stands between heavier lines. */
function ruleBeside(paper: Paper, complete: boolean): void {
  const across = { x: paper.left, y: paper.y, width: paper.width };
  paper.rule({ ...across, ink: complete ? 'faint' : 'line', thick: complete ? 0.6 : 1.4 });
}
