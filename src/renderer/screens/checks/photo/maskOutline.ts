import type { ReadMark } from '../../../photos/messages.ts';

/** The border between mark and compound as lines along the cells, crown above. */
export function maskOutline({ columns, rows, cells }: ReadMark['mask']): string {
  const at = (column: number, row: number): number =>
    column < 0 || row < 0 || column >= columns || row >= rows ? 0 : (cells[row * columns + column] ?? 0);
  const lines: string[] = [];
  for (let row = 0; row <= rows; row += 1) {
    for (let column = 0; column <= columns; column += 1) {
      const y = rows - row;
      if (row < rows && at(column, row) !== at(column - 1, row)) lines.push(`M${column} ${y}V${y - 1}`);
      if (column < columns && at(column, row) !== at(column, row - 1)) lines.push(`M${column} ${y}H${column + 1}`);
    }
  }
  return lines.join('');
}
