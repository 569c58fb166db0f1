/** Numbers over a raster of places: the brightness of a picture, the height of a flank. */
export interface Field {
  readonly columns: number;
  readonly rows: number;
  /** Row after row, `columns · rows` numbers in the unit of whoever fills them. */
  readonly values: Float32Array | Float64Array;
  /**
   * The number at a place.
   * @throws RangeError outside the raster: a defect of the code that asks, never a silent 0 in a figure
   */
  readonly at: (column: number, row: number) => number;
}

/** Lays numbers out as a field. @throws RangeError where there are not `columns · rows` of them */
export function fieldOf(values: Float32Array | Float64Array, columns: number, rows: number): Field {
  if (values.length !== columns * rows)
    throw new RangeError(`${values.length} numbers do not fill ${columns} columns and ${rows} rows`);
  const at = (column: number, row: number): number => {
    const value = column >= 0 && column < columns ? values[row * columns + column] : undefined;
    if (value === undefined) throw new RangeError(`column ${column}, row ${row} is not on ${columns} × ${rows}`);
    return value;
  };
  return { columns, rows, values, at };
}
