/** A rectangle of numbers, stored row by row: light, colour or bareness over a flank. */
export class Field {
  readonly columns: number;
  readonly rows: number;
  readonly values: Float32Array;

  /** @throws RangeError where there are not as many values as places: a defect. */
  constructor(columns: number, rows: number, values: Float32Array = new Float32Array(columns * rows)) {
    if (values.length !== columns * rows) {
      throw new RangeError(`${values.length} values do not fill ${columns} columns and ${rows} rows`);
    }
    this.columns = columns;
    this.rows = rows;
    this.values = values;
  }

  /** @throws RangeError outside the field: a defect. */
  at(column: number, row: number): number {
    if (column < 0 || column >= this.columns) throw new RangeError(`no column ${column} among ${this.columns}`);
    return this.cell(row * this.columns + column);
  }

  /** The value of a cell counted row by row. @throws RangeError outside the field: a defect. */
  cell(cell: number): number {
    const value = this.values[cell];
    if (value === undefined) throw new RangeError(`no cell ${cell} among ${this.values.length}`);
    return value;
  }

  mean(): number {
    let sum = 0;
    for (const value of this.values) sum += value;
    return sum / this.values.length;
  }

  /** 1 for every cell of which something holds, else 0. */
  where(holds: (value: number, cell: number) => boolean): Uint8Array {
    const cells = new Uint8Array(this.values.length);
    for (let cell = 0; cell < cells.length; cell += 1) cells[cell] = holds(this.cell(cell), cell) ? 1 : 0;
    return cells;
  }

  /** A field of the same size, each value made from the old one and its place. */
  map(of: (value: number, cell: number) => number): Field {
    const values = new Float32Array(this.values.length);
    for (let cell = 0; cell < values.length; cell += 1) values[cell] = of(this.cell(cell), cell);
    return new Field(this.columns, this.rows, values);
  }
}
