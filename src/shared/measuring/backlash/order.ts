import { at } from '../../basics/at.ts';

/** Up to so many values an insertion sort is quicker than the engine's, which has to be called. */
const FEW = 24;

/** Puts the first `many` values in rising order, in place and without allocating for few. */
export function sortFirst(values: Float64Array, many: number): void {
  if (many > FEW) {
    values.subarray(0, many).sort();
    return;
  }
  for (let index = 1; index < many; index += 1) {
    const value = at(values, index);
    let to = index;
    for (; to > 0 && at(values, to - 1) > value; to -= 1) values[to] = at(values, to - 1);
    values[to] = value;
  }
}

/** The middle of the first `many` values once they are in order: the mean of the two middle ones for an even number. */
export const middleOf = (sorted: Float64Array, many: number): number =>
  (at(sorted, (many - 1) >> 1) + at(sorted, many >> 1)) / 2;
