/**
 * The number at a place that is there by construction, for the loops that run at every reading.
 * @throws RangeError where there is none: a defect of the caller, and no nought to reckon with.
 */
export function numberAt(values: Float64Array, index: number): number {
  const value = values[index];
  if (value === undefined) throw new RangeError(`place ${index} of ${values.length} is not there`);
  return value;
}

/** Up to so many values an insertion sort is quicker than the engine's, which has to be called. */
const FEW = 24;

/** Puts the first `many` values in rising order, in place and without allocating for few. */
export function sortFirst(values: Float64Array, many: number): void {
  if (many > FEW) {
    values.subarray(0, many).sort();
    return;
  }
  for (let index = 1; index < many; index += 1) {
    const value = numberAt(values, index);
    let to = index;
    for (; to > 0 && numberAt(values, to - 1) > value; to -= 1) values[to] = numberAt(values, to - 1);
    values[to] = value;
  }
}

/** The middle of the first `many` values once they are in order: the mean of the two middle ones for an even number. */
export const middleOf = (sorted: Float64Array, many: number): number =>
  (numberAt(sorted, (many - 1) >> 1) + numberAt(sorted, many >> 1)) / 2;
