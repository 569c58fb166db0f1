import type { Figure, FiguresBlock } from '../../shared/presentation/certificate/page.ts';
import { paragraph } from './flow.ts';
import { type Letters, scale } from './letters.ts';
import type { Paper, Strip } from './paper.ts';
import { elementsToPdf } from './sceneToPdf.ts';
import { shapeElements, shapeInk } from './shapes.ts';

const figureGap = 8;
const figureIndent = 17;
const standingLetters = { ...scale.quiet, weight: 600 } as const;

const columnGap = 10;

/** Name, figure, and beneath it where it stands and against what; in columns, filled row by row. */
export function figuresToPaper(paper: Paper, { figures, columns = 1 }: FiguresBlock, strip: Strip): void {
  const width = columnWidth(strip.width, columns);
  for (let first = 0; first < figures.length; first += columns) {
    const top = paper.y;
    let lowest = top;
    figures.slice(first, first + columns).forEach((figure, index) => {
      paper.y = top;
      figureToPaper(paper, figure, { x: strip.x + index * (width + columnGap), width });
      lowest = Math.max(lowest, paper.y);
    });
    paper.y = lowest;
  }
}

const columnWidth = (width: number, columns: number): number => (width - columnGap * (columns - 1)) / columns;

function figureToPaper(paper: Paper, figure: Figure, strip: Strip): void {
  const inner = { x: strip.x + figureIndent, width: strip.width - figureIndent };
  const line = figure.value === '' ? scale.quiet.line : scale.figure.line;
  const at = { x: strip.x + 5, y: paper.y + scale.quiet.line + line / 2 };
  paper.artifact(() => elementsToPdf(paper.pdf, shapeElements(figure.shape, 9.5), at));
  paragraph(paper, figure.name, { letters: scale.quiet, strip: inner });
  if (figure.value !== '') paragraph(paper, figure.value, { letters: scale.figure, strip: inner });
  standingToPaper(paper, figure, inner);
  if (figure.more !== undefined) paragraph(paper, figure.more, { letters: scale.quiet, strip: inner });
  paper.y += figureGap;
}

/** The standing in its ink, the limit behind it where there is room for both. */
function standingToPaper(paper: Paper, figure: Figure, strip: Strip): void {
  const letters = { ...standingLetters, ink: shapeInk(figure.shape) };
  if (!onOneLine(paper, figure, strip.width)) {
    paragraph(paper, figure.standing, { letters, strip });
    if (figure.limit !== '') paragraph(paper, figure.limit, { letters: scale.quiet, strip });
    return;
  }
  const top = paper.y;
  const at = strip.x + paper.measure(`${figure.standing}  `, letters);
  const struct = paper.tag(paper.root, 'P');
  struct.add(() => {
    paper.line(figure.standing, strip.x, top, letters);
    if (figure.limit !== '') paper.line(figure.limit, at, top, scale.quiet);
  });
  struct.end();
  paper.y = top + scale.quiet.line;
}

const onOneLine = (paper: Paper, { standing, limit }: Figure, width: number): boolean =>
  paper.measure(`${standing}  `, standingLetters) + paper.measure(limit, scale.quiet) <= width;

/** Height they take on one page. */
export function figuresHeight(paper: Paper, { figures, columns = 1 }: FiguresBlock, width: number): number {
  const inner = columnWidth(width, columns) - figureIndent;
  const heights = figures.map((figure) => figureHeight(paper, figure, inner));
  let sum = 0;
  for (let first = 0; first < heights.length; first += columns)
    sum += Math.max(...heights.slice(first, first + columns));
  return sum;
}

function figureHeight(paper: Paper, figure: Figure, width: number): number {
  const lines = (words: string | undefined, letters: Letters): number =>
    words === undefined || words === '' ? 0 : paper.wrap(words, letters, width).length * letters.line;
  const { name, value, standing, limit, more } = figure;
  const under = onOneLine(paper, figure, width)
    ? scale.quiet.line
    : lines(standing, standingLetters) + lines(limit, scale.quiet);
  return lines(name, scale.quiet) + lines(value, scale.figure) + under + lines(more, scale.quiet) + figureGap;
}
