import { at } from '../../shared/basics/at.ts';
import type { Cell, Column, TableBlock } from '../../shared/presentation/certificate/page.ts';
import { type Letters, scale } from './letters.ts';
import type { Paper, Strip, Struct } from './paper.ts';
import { shapeElements, shapeInk } from './shapes.ts';
import { elementsToPdf } from './sceneToPdf.ts';

interface Line {
  readonly words: string;
  readonly letters: Letters;
}

/** A strip of the page with the side its words keep to. */
interface Aligned extends Strip {
  readonly align: Column['align'];
}

/** A cell broken into lines for its column. */
interface Laid {
  readonly cell: Cell;
  readonly lines: readonly Line[];
}

const gap = 12;
const pad = 3.2;
const shapeRoom = 12;

/** A table with the places of its columns on the paper. */
interface Grid {
  readonly paper: Paper;
  readonly columns: readonly Placed[];
  readonly place: Strip;
}

/** A column with its left edge and its width. */
interface Placed extends Strip {
  readonly column: Column;
}

function gridOf(paper: Paper, table: TableBlock, place: Strip): Grid {
  let x = place.x;
  const columns = columnWidths(paper, table, place.width).map((width, index): Placed => {
    const here = x;
    x += width + gap;
    return { column: at(table.columns, index), x: here, width };
  });
  return { paper, columns, place };
}

/** A table over as many pages as it takes, its head repeated on each. */
export function tableToPaper(paper: Paper, table: TableBlock, place: Strip, parent: Struct): void {
  const grid = gridOf(paper, table, place);
  const struct = paper.tag(parent, 'Table');
  const rows = table.rows.map((row) => layRow(grid, row));
  const head = grid.columns.map(({ column, width }) => headLines(paper, column, width));
  const headHeight = headHeightOf(head);
  const first = rows[0] === undefined ? 0 : heightOf(rows[0]);
  paper.need(headHeight + first);
  drawHead(grid, head, struct);
  const pieces = rows.flatMap((row) => parts(row, paper.bottom - paper.top - headHeight));
  for (const [index, part] of pieces.entries()) {
    if (paper.room < heightOf(part) + aloneAfter(pieces, index, paper.room)) {
      paper.newPage();
      drawHead(grid, head);
    }
    drawRow(grid, part, struct);
  }
  struct.end();
  paper.y += 4;
}

/** The last row never stands alone on a further page: the one before it goes with it. */
function aloneAfter(pieces: readonly (readonly Laid[])[], index: number, room: number): number {
  const [here, last] = [pieces[index], pieces[index + 1]];
  if (index === 0 || index !== pieces.length - 2 || here === undefined || last === undefined) return 0;
  return room < heightOf(here) + heightOf(last) ? heightOf(last) : 0;
}

/** Height a table would take on one page. */
export function tableHeight(paper: Paper, table: TableBlock, width: number): number {
  const grid = gridOf(paper, table, { x: 0, width });
  const head = grid.columns.map((placed) => headLines(paper, placed.column, placed.width));
  const rows = table.rows.map((row) => heightOf(layRow(grid, row)));
  return headHeightOf(head) + rows.reduce((sum, height) => sum + height, 0) + 4;
}

const headHeightOf = (head: readonly (readonly string[])[]): number =>
  Math.max(...head.map((lines) => lines.length)) * scale.head.line + 6;

const layRow = ({ paper, columns }: Grid, row: readonly Cell[]): readonly Laid[] =>
  row.map((cell, index) => lay(paper, cell, index === 0, at(columns, index).width));

const headLines = (paper: Paper, column: Column, width: number): readonly string[] =>
  paper.wrap(column.head, scale.head, width);

function lay(paper: Paper, cell: Cell, isName: boolean, width: number): Laid {
  const room = width - (cell.shape === undefined ? 0 : shapeRoom);
  const base = isName ? scale.cellName : scale.cell;
  const letters = cell.shape === undefined ? base : { ...base, ink: shapeInk(cell.shape), weight: 500 as const };
  const under = cell.under === undefined ? [] : paper.wrap(cell.under, scale.cellUnder, room);
  return {
    cell,
    lines: [
      ...paper.wrap(cell.text, letters, room).map((words) => ({ words, letters })),
      ...under.map((words) => ({ words, letters: scale.cellUnder })),
    ],
  };
}

const linesHeight = (lines: readonly Line[]): number => lines.reduce((sum, { letters }) => sum + letters.line, 0);

const heightOf = (row: readonly Laid[]): number => Math.max(...row.map(({ lines }) => linesHeight(lines))) + 2 * pad;

/** A row taller than a page is written in pieces; every other row is kept whole. */
function parts(row: readonly Laid[], room: number): readonly (readonly Laid[])[] {
  if (heightOf(row) <= room) return [row];
  const most = Math.floor((room - 2 * pad) / scale.cell.line);
  const count = Math.ceil(Math.max(...row.map(({ lines }) => lines.length)) / most);
  return Array.from({ length: count }, (_, part) =>
    row.map(({ cell, lines }) => ({ cell, lines: lines.slice(part * most, (part + 1) * most) })),
  );
}

/** Columns that do not grow take what their words need; the others share the rest. */
function columnWidths(paper: Paper, { columns, rows }: TableBlock, width: number): readonly number[] {
  const natural = columns.map((column, index) =>
    column.grow > 0
      ? 0
      : Math.min(
          width * 0.4,
          naturalWidth(
            paper,
            column,
            rows.map((row) => row[index]),
          ),
        ),
  );
  const taken = natural.reduce((sum, one) => sum + one, 0) + gap * (columns.length - 1);
  const shares = columns.reduce((sum, { grow }) => sum + grow, 0);
  // Where nothing grows, the room left over goes between the columns evenly.
  const spare = Math.max(0, width - taken);
  return columns.map(({ grow }, index) =>
    shares === 0
      ? at(natural, index) + spare / columns.length
      : grow > 0
        ? (spare * grow) / shares
        : at(natural, index),
  );
}

function naturalWidth(paper: Paper, column: Column, cells: readonly (Cell | undefined)[]): number {
  const words = column.head.split(', ');
  const head = Math.max(
    ...words.map((part, index) => paper.measure(index < words.length - 1 ? `${part},` : part, scale.head)),
  );
  const body = cells.map((cell) => {
    if (cell === undefined) return 0;
    const shape = cell.shape === undefined ? 0 : shapeRoom;
    return shape + Math.max(paper.measure(cell.text, scale.cellName), paper.measure(cell.under ?? '', scale.cellUnder));
  });
  return Math.ceil(Math.max(head, ...body)) + 0.5;
}

/** Repeated on a further page, without a structure element, the head is furniture: a reader has it already. */
function drawHead({ paper, columns, place }: Grid, head: readonly (readonly string[])[], struct?: Struct): void {
  const rows = Math.max(...head.map((lines) => lines.length));
  const top = paper.y;
  const row = struct === undefined ? undefined : paper.tag(struct, 'TR');
  columns.forEach((placed, index) => {
    const lines = at(head, index).map((words) => ({ words, letters: scale.head }));
    const from = top + (rows - lines.length) * scale.head.line;
    const draw = (): void => writeLines(paper, lines, { ...placed, align: placed.column.align }, from);
    if (row === undefined) paper.artifact(draw, 'Pagination');
    else row.add(paper.pdf.struct('TH', { scope: 'Column' } as PDFKit.Mixins.StructureElementOptions, draw));
  });
  row?.end();
  paper.y = top + rows * scale.head.line + 3;
  paper.rule({ ...place, y: paper.y, ink: 'line' });
  paper.y += 3;
}

function drawRow({ paper, columns, place }: Grid, row: readonly Laid[], parent: Struct): void {
  const top = paper.y;
  const struct = paper.tag(parent, 'TR');
  row.forEach(({ cell, lines }, index) => {
    const { column, x, width } = at(columns, index);
    if (cell.shape !== undefined) drawShape(paper, cell, x, top);
    const shift = cell.shape === undefined ? 0 : shapeRoom;
    const strip = { x: x + shift, width: width - shift, align: column.align };
    const draw = (): void => writeLines(paper, lines, strip, top + pad);
    struct.add(index === 0 ? rowHead(paper, draw) : paper.pdf.struct('TD', {}, draw));
  });
  struct.end();
  paper.y = top + heightOf(row);
  paper.rule({ ...place, y: paper.y, thick: 0.4 });
}

const rowHead = (paper: Paper, draw: () => void): Struct =>
  paper.pdf.struct('TH', { scope: 'Row' } as PDFKit.Mixins.StructureElementOptions, draw);

function drawShape(paper: Paper, cell: Cell, x: number, top: number): void {
  const { shape } = cell;
  if (shape === undefined) return;
  paper.artifact(() =>
    elementsToPdf(paper.pdf, shapeElements(shape, 7), { x: x + 4, y: top + pad + scale.cell.line / 2 }),
  );
}

/** Lines under each other in a strip, from `top` down. */
function writeLines(paper: Paper, lines: readonly Line[], { x, width, align }: Aligned, top: number): void {
  let y = top;
  for (const { words, letters } of lines) {
    paper.line(words, align === 'left' ? x : x + width - paper.measure(words, letters), y, letters);
    y += letters.line;
  }
}
