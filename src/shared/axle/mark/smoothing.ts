import { Field } from '../../basics/field.ts';

/** Size of a raster; fields over it are stored row by row. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
}

/** Mean of each cell with its eight neighbours, as far as there are any: one beyond the rim counts as the rim's own. */
export function smoothed({ columns, rows, values }: Field): Field {
  return new Field(columns, rows, ofThree(ofThree(values, 1, columns), columns, columns * rows));
}

/** Mean of three values `step` apart, within runs of a length. */
function ofThree(values: Float32Array, step: number, run: number): Float32Array {
  return values.map((value, at) => {
    const place = at % run;
    const before = place >= step ? values[at - step] : value;
    const after = place < run - step ? values[at + step] : value;
    return ((before ?? value) + value + (after ?? value)) / 3;
  });
}

/** Value below which a share of the values lies; 0 of no values. */
export function quantile(values: readonly number[] | Float32Array, share: number): number {
  const sorted = Float64Array.from(values).toSorted();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
}
