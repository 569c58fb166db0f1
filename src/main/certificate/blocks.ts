import type {
  BesideBlock,
  Block,
  HeadingBlock,
  PictureBlock,
  PhotosBlock,
  PicturesBlock,
  SignatureBlock,
  TableBlock,
} from '../../shared/presentation/certificate/page.ts';
import type { Scene } from '../../shared/presentation/drawing/scene.ts';
import { paragraph } from './flow.ts';
import { titleToPaper, verdictToPaper } from './heads.ts';
import { figuresHeight, figuresToPaper } from './keyFigures.ts';
import { scale } from './letters.ts';
import type { Paper, Strip } from './paper.ts';
import { type PhotoOf, photoRowHeight, photosToPaper } from './photos.ts';
import { sceneToPdf } from './sceneToPdf.ts';
import { tableHeight, tableToPaper } from './table.ts';
import { listToPaper, wordsToPaper } from './wording.ts';
import { noCase } from '../../shared/basics/noCase.ts';

interface Writing {
  /** Told how many of them are written, 0 to 1. */
  readonly onShare: (share: number) => void;
  readonly photoOf: PhotoOf;
}

/** Writes the blocks one after the other, breaking pages where it must. */
export function blocksToPaper(paper: Paper, blocks: readonly Block[], { onShare, photoOf }: Writing): void {
  const strip = { x: paper.left, width: paper.width };
  blocks.forEach((block, index) => {
    if (block.kind === 'heading') paper.need(headingRoom(paper, block, blocks[index + 1]));
    if (block.kind === 'photos') photosToPaper(paper, block, strip, photoOf);
    else blockToPaper(paper, block, strip);
    onShare((index + 1) / blocks.length);
  });
}

function blockToPaper(paper: Paper, block: Exclude<Block, PhotosBlock>, strip: Strip): void {
  switch (block.kind) {
    case 'page':
      paper.endFirst();
      // What is left of an overfull page before goes on a page of its own only where it fills one.
      if (!paper.atTop && !paper.isRunOver) paper.newPage();
      return;
    case 'title':
      return titleToPaper(paper, block);
    case 'verdict':
      return verdictToPaper(paper, block);
    case 'heading':
      return headingToPaper(paper, block, strip);
    case 'words':
      return wordsToPaper(paper, block, strip);
    case 'list':
      return listToPaper(paper, block, strip);
    case 'table':
      tableToPaper(paper, block, strip, paper.root);
      return;
    case 'figures':
      return figuresToPaper(paper, block, strip);
    case 'picture':
      return pictureToPaper(paper, block, strip);
    case 'beside':
      return besideToPaper(paper, block, strip);
    case 'pictures':
      return picturesToPaper(paper, block, strip);
    case 'signature':
      return signatureToPaper(paper, block, strip);
    default:
      throw noCase(block);
  }
}

/** A heading never stands alone at the foot of a page. */
function headingRoom(paper: Paper, block: HeadingBlock, next: Block | undefined): number {
  const own = block.level === 2 ? 60 : 34;
  if (next === undefined) return own;
  if (next.kind === 'picture')
    return own + paper.width * (next.across ?? 1) * heightShare(paper, next) + captionHeight(paper, next, paper.width);
  if (next.kind === 'beside') return own + besideHeight(paper, next);
  if (next.kind === 'table') return own + tableRoom(paper, next);
  if (next.kind === 'photos') return own + photoRowHeight(paper, next);
  return own + (block.level === 2 ? 80 : 40);
}

/** A table of no more than half a page stays whole; a longer one goes over with at least its head and its first rows. */
function tableRoom(paper: Paper, table: TableBlock): number {
  const whole = tableHeight(paper, table, paper.width);
  return whole <= (paper.bottom - paper.top) / 2 ? whole : 100;
}

function headingToPaper(paper: Paper, { level, words, under }: HeadingBlock, strip: Strip): void {
  paper.space(level === 2 ? 18 : 10);
  paragraph(
    paper,
    words,
    { letters: level === 2 ? scale.section : scale.part, strip },
    { type: level === 2 ? 'H2' : 'H3' },
  );
  if (under !== undefined) paragraph(paper, under, { letters: scale.quiet, strip });
  paper.y += level === 2 ? 6 : 3;
}

function pictureToPaper(paper: Paper, block: PictureBlock, strip: Strip): void {
  const scene = sceneFor(paper, block, strip.width * (block.across ?? 1));
  paper.need(scene.height + captionHeight(paper, block, strip.width));
  drawScene(paper, scene, strip.x);
  paper.y += scene.height;
  if (block.caption !== undefined) paragraph(paper, block.caption, { letters: scale.quiet, strip });
}

/** Rows of pictures, each row kept whole with its words. */
function picturesToPaper(paper: Paper, { across, pictures }: PicturesBlock, strip: Strip): void {
  const width = (strip.width - besideGap * (across - 1)) / across;
  for (let first = 0; first < pictures.length; first += across) {
    const row = pictures.slice(first, first + across);
    paper.need(Math.max(...row.map((one) => width * heightShare(paper, one) + captionHeight(paper, one, width))));
    const top = paper.y;
    let lowest = top;
    row.forEach((one, index) => {
      paper.y = top;
      pictureToPaper(paper, one, { x: strip.x + index * (width + besideGap), width });
      lowest = Math.max(lowest, paper.y);
    });
    paper.y = lowest + 6;
  }
}

/** Lines with room above them for a hand, their names beneath. */
function signatureToPaper(paper: Paper, { fields }: SignatureBlock, strip: Strip): void {
  const width = (strip.width - besideGap * (fields.length - 1)) / fields.length;
  paper.need(34);
  paper.y += 20;
  const { y } = paper;
  fields.forEach((field, index) => {
    const x = strip.x + index * (width + besideGap);
    paper.rule({ x, y, width, ink: 'line' });
    paper.y = y + 2;
    paragraph(paper, field, { letters: scale.quiet, strip: { x, width } });
  });
}

const captionHeight = (paper: Paper, { caption }: PictureBlock, width: number): number =>
  caption === undefined ? 0 : paper.wrap(caption, scale.quiet, width).length * scale.quiet.line;

/** Letters in drawings are as high as those of tables. */
const sceneFor = (paper: Paper, block: PictureBlock, width: number): Scene =>
  block.draw({ width, height: width * heightShare(paper, block), text: 7.5 });

/** A picture gives way before words do. */
const heightShare = (paper: Paper, { share, closeShare }: PictureBlock): number =>
  paper.isClose ? (closeShare ?? share) : share;

function drawScene(paper: Paper, scene: Scene, x: number): void {
  const { y } = paper;
  const figure = paper.pdf.struct(
    'Figure',
    {
      alt: `${scene.title}. ${scene.description}`,
      bbox: [x, y, x + scene.width, y + scene.height],
    } as PDFKit.Mixins.StructureElementOptions,
    () => sceneToPdf(paper.pdf, scene, { x, y }),
  );
  paper.root.add(figure);
}

const besideGap = 18;

function besideStrips({ share }: BesideBlock, strip: Strip): readonly [Strip, Strip] {
  const width = strip.width * share - besideGap / 2;
  return [
    { x: strip.x, width },
    { x: strip.x + width + besideGap, width: strip.width - width - besideGap },
  ];
}

function besideHeight(paper: Paper, block: BesideBlock): number {
  const [left, right] = besideStrips(block, { x: paper.left, width: paper.width });
  const beside = block.right.map((one) => heightOf(paper, one, right.width)).reduce((sum, height) => sum + height, 0);
  return Math.max(
    left.width * heightShare(paper, block.picture) + captionHeight(paper, block.picture, left.width),
    beside,
  );
}

function heightOf(paper: Paper, block: BesideBlock['right'][number], width: number): number {
  switch (block.kind) {
    case 'figures':
      return figuresHeight(paper, block, width);
    case 'table':
      return tableHeight(paper, block, width);
    case 'words': {
      const letters = { plain: scale.body, quiet: scale.quiet, code: scale.code }[block.tone];
      return paper.wrap(block.words, letters, width).length * letters.line + 5;
    }
    case 'heading':
      return 30;
    default:
      throw noCase(block);
  }
}

function besideToPaper(paper: Paper, block: BesideBlock, strip: Strip): void {
  const [left, right] = besideStrips(block, strip);
  const height = besideHeight(paper, block);
  paper.need(height);
  const top = paper.y;
  pictureToPaper(paper, block.picture, left);
  const under = paper.y;
  paper.y = top;
  for (const one of block.right) blockToPaper(paper, one, right);
  paper.y = Math.max(paper.y, under);
}
