/** Two heaps of values, and how well they are told apart. */
interface TwoClasses {
  readonly threshold: number;
  readonly low: number;
  readonly high: number;
  /** Share of the values' variance that the two means explain, 0…1: about 0.64 for one even heap. */
  readonly explained: number;
}

const bins = 128;

/** Splits values where the two heaps' means explain most (Otsu's criterion, textbook). */
export function twoClasses(values: Float32Array, counts: (cell: number) => boolean): TwoClasses {
  let [least, most] = [Infinity, -Infinity];
  values.forEach((value, cell) => {
    if (!counts(cell)) return;
    least = Math.min(least, value);
    most = Math.max(most, value);
  });
  if (!(most > least)) return { threshold: least, low: least, high: least, explained: 0 };
  const width = (most - least) / bins;
  const heights = new Float64Array(bins);
  let total = 0;
  values.forEach((value, cell) => {
    if (!counts(cell)) return;
    const bin = Math.min(bins - 1, Math.floor((value - least) / width));
    heights[bin] = (heights[bin] ?? 0) + 1;
    total += 1;
  });
  const { bin, lowMean, highMean, explained } = bestSplit(heights, total);
  const value = (place: number) => least + (place + 0.5) * width;
  return { threshold: value(bin + 0.5), low: value(lowMean), high: value(highMean), explained };
}

function bestSplit(heights: Float64Array, total: number) {
  let [sum, squares] = [0, 0];
  heights.forEach((height, bin) => {
    sum += height * bin;
    squares += height * bin * bin;
  });
  const variance = squares / total - (sum / total) ** 2;
  let best = { bin: 0, lowMean: sum / total, highMean: sum / total, explained: 0 };
  let [count, partial] = [0, 0];
  for (let bin = 0; bin < bins - 1; bin += 1) {
    count += heights[bin] ?? 0;
    partial += (heights[bin] ?? 0) * bin;
    if (count === 0 || count === total) continue;
    const [lowMean, highMean] = [partial / count, (sum - partial) / (total - count)];
    const between = (count / total) * (1 - count / total) * (highMean - lowMean) ** 2;
    const explained = variance > 0 ? between / variance : 0;
    if (explained > best.explained) best = { bin, lowMean, highMean, explained };
  }
  return best;
}
