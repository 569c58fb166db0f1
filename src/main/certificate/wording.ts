import type { ListBlock, WordsBlock } from '../../shared/presentation/certificate/page.ts';
import { flow, paragraph } from './flow.ts';
import { scale } from './letters.ts';
import type { Paper, Strip } from './paper.ts';

export function wordsToPaper(paper: Paper, { words, tone }: WordsBlock, strip: Strip): void {
  const letters = { plain: scale.body, quiet: scale.quiet, code: scale.code }[tone];
  paper.space(3);
  paragraph(paper, words, { letters, strip });
  paper.y += 2;
}

/** An item of up to so many lines is not parted by the end of a page. */
const wholeLines = 6;

export function listToPaper(paper: Paper, { items, quiet = false, mark = () => '–' }: ListBlock, strip: Strip): void {
  const letters = quiet ? scale.quiet : scale.body;
  const struct = paper.tag(paper.root, 'L');
  const indent = 10;
  for (const [index, item] of items.entries()) {
    const element = paper.tag(struct, 'LI');
    const lines = paper.wrap(item, letters, strip.width - indent);
    paper.need(Math.min(lines.length, wholeLines) * letters.line);
    const top = paper.y;
    element.add(paper.pdf.struct('Lbl', {}, () => paper.line(mark(index), strip.x, top, letters)));
    const body = paper.tag(element, 'LBody');
    flow(paper, lines, { letters, strip: { ...strip, x: strip.x + indent } }, body);
    body.end();
    element.end();
    paper.y += quiet ? 0.5 : 1.5;
  }
  struct.end();
}
