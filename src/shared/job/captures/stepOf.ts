/**
 * The step of a display, read off its readings: the smallest difference between two of them that is more than
 * rounding. A gauge whose readings never differ has not shown its step; then a micrometre (or 0.001 N·m) is taken.
 */
export function stepOf(values: readonly number[]): number {
  const sorted = [...new Set(values)].toSorted((a, b) => a - b);
  let step = Infinity;
  for (const [index, value] of sorted.entries()) {
    const gap = value - (sorted[index - 1] ?? -Infinity);
    // Converted inches differ by less than this in their last binary digit; no shop gauge resolves it.
    if (gap > 1e-7 && gap < step) step = gap;
  }
  return step === Infinity ? 0.001 : step;
}
