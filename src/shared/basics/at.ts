/**
 * The value at a place of a list that must be there. A place outside is a defect of the code that asks: it throws, in
 * place of a silent 0 that would go into a figure.
 * @throws RangeError naming the place
 */
export function at<Value>(list: ArrayLike<Value>, index: number): Value {
  const value = list[index];
  if (value === undefined) throw new RangeError(`place ${index} of ${list.length} is not there`);
  return value;
}
