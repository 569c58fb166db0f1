/** Milliseconds, for a line of figures: on a machine with other work the least is nearest to what it takes. */
export function spreadOf(took: readonly number[]): string {
  const sorted = took.toSorted((a, b) => a - b);
  const [least, middle, worst] = [0, Math.floor(sorted.length / 2), sorted.length - 1].map((at) => sorted[at] ?? 0);
  return `${(middle ?? 0).toFixed(1)} ms (${(least ?? 0).toFixed(1)} to ${(worst ?? 0).toFixed(1)})`;
}
