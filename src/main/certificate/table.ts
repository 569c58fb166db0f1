import type { Cell, Column, TableBlock } from '../../shared/presentation/certificate/page.ts';
import { type Letters, scale } from './letters.ts';
import type { Paper, Struct } from './paper.ts';
import { shapeElements, shapeInk } from './shapes.ts';
import { elementsToPdf } from './sceneToPdf.ts';

interface Line {
  readonly words: string;
  readonly letters: Letters;
}

/** A cell broken into lines for its column. */
interface Laid {
  readonly cell: Cell;
  readonly lines: readonly Line[];
}

const gap = 12;
const pad = 3.2;
const shapeRoom = 12;

/** A table over as many pages as it takes, its head repeated on each. */
export function tableToPaper(paper: Paper, table: TableBlock, x: number, width: number, parent: Struct): void {
  const widths = columnWidths(paper, table, width);
  const struct = paper.tag(parent, 'Table');
  const rows = table.rows.map((row) => row.map((cell, index) => lay(paper, cell, index === 0, widths[index] ?? 0)));
  const head = table.columns.map((column, index) => headLines(paper, column, widths[index] ?? 0));
  const headHeight = Math.max(...head.map((lines) => lines.length)) * scale.head.line + 6;
  const first = rows[0] === undefined ? 0 : heightOf(rows[0]);
  paper.need(headHeight + first);
  drawHead(paper, table.columns, head, widths, x, width, struct);
  for (const row of rows) {
    for (const part of parts(row, paper.bottom - paper.top - headHeight)) {
      if (paper.room < heightOf(part)) {
        paper.newPage();
        drawHead(paper, table.columns, head, widths, x, width, undefined);
      }
      drawRow(paper, table.columns, part, widths, x, width, struct);
    }
  }
  struct.end();
  paper.y += 4;
}

/** Height a table would take on one page. */
export function tableHeight(paper: Paper, table: TableBlock, width: number): number {
  const widths = columnWidths(paper, table, width);
  const head = table.columns.map((column, index) => headLines(paper, column, widths[index] ?? 0).length);
  const rows = table.rows.map((row) =>
    heightOf(row.map((cell, index) => lay(paper, cell, index === 0, widths[index] ?? 0))),
  );
  return Math.max(...head) * scale.head.line + 6 + rows.reduce((sum, height) => sum + height, 0) + 4;
}

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
      ? (natural[index] ?? 0) + spare / columns.length
      : grow > 0
        ? (spare * grow) / shares
        : (natural[index] ?? 0),
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

function drawHead(
  paper: Paper,
  columns: readonly Column[],
  head: readonly (readonly string[])[],
  widths: readonly number[],
  x: number,
  width: number,
  struct: Struct | undefined,
): void {
  const rows = Math.max(...head.map((lines) => lines.length));
  const top = paper.y;
  const row = struct === undefined ? undefined : paper.tag(struct, 'TR');
  let at = x;
  columns.forEach((column, index) => {
    const lines = head[index] ?? [];
    const from = top + (rows - lines.length) * scale.head.line;
    const cellX = at;
    const draw = (): void =>
      lines.forEach((words, line) =>
        writeLine(paper, words, scale.head, column.align, cellX, widths[index] ?? 0, from + line * scale.head.line),
      );
    // Repeated on a further page the head is furniture: a reader has it already.
    if (row === undefined) paper.artifact(draw, 'Pagination');
    else row.add(paper.pdf.struct('TH', { scope: 'Column' } as PDFKit.Mixins.StructureElementOptions, draw));
    at += (widths[index] ?? 0) + gap;
  });
  row?.end();
  paper.y = top + rows * scale.head.line + 3;
  paper.rule(x, paper.y, width, 'line');
  paper.y += 3;
}

function drawRow(
  paper: Paper,
  columns: readonly Column[],
  row: readonly Laid[],
  widths: readonly number[],
  x: number,
  width: number,
  parent: Struct,
): void {
  const top = paper.y;
  const struct = paper.tag(parent, 'TR');
  let at = x;
  row.forEach(({ cell, lines }, index) => {
    const cellWidth = widths[index] ?? 0;
    const align = columns[index]?.align ?? 'left';
    const cellX = at;
    if (cell.shape !== undefined) drawShape(paper, cell, cellX, top);
    const shift = cell.shape === undefined ? 0 : shapeRoom;
    const draw = (): void => writeLines(paper, lines, align, cellX + shift, cellWidth - shift, top + pad);
    struct.add(index === 0 ? rowHead(paper, draw) : paper.pdf.struct('TD', {}, draw));
    at += cellWidth + gap;
  });
  struct.end();
  paper.y = top + heightOf(row);
  paper.rule(x, paper.y, width, 'faint', 0.4);
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

function writeLines(
  paper: Paper,
  lines: readonly Line[],
  align: Column['align'],
  x: number,
  width: number,
  top: number,
): void {
  let y = top;
  for (const { words, letters } of lines) {
    writeLine(paper, words, letters, align, x, width, y);
    y += letters.line;
  }
}

function writeLine(
  paper: Paper,
  words: string,
  letters: Letters,
  align: Column['align'],
  x: number,
  width: number,
  y: number,
): void {
  const at = align === 'left' ? x : x + width - paper.measure(words, letters);
  paper.line(words, at, y, letters);
}
