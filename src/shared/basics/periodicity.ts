import { at } from './at.ts';

/**
 * The period of a torque that repeats itself turn by turn, in steps of the list, or undefined when it does not prove
 * itself. It has to look like itself one period later (correlation 0.7) and two periods later (0.5), to be seen two
 * and a half times, and to stand out from noise. Quicker swings are a hand's tremor and are smoothed away first:
 * whole swings of a tremor are not whole turns.
 *
 * @param values equally spaced in time
 * @param quickest shortest period that can be a turn, in steps
 * @param noise standard deviation of one value
 */
export function periodOf(values: readonly number[], quickest: number, noise: number): number | undefined {
  const width = Math.max(1, Math.round(quickest * 0.75));
  const smooth = levelled(movingMean(Float64Array.from(values), width));
  const longest = Math.floor(smooth.length / 2.5);
  if (longest < quickest + 2 || rootMeanSquare(smooth) < (2 * noise) / Math.sqrt(width)) return undefined;
  if (rootMeanSquare(smooth) < 0.3 * rootMeanSquare(levelled(Float64Array.from(values)))) return undefined;
  const from = Math.ceil(quickest);
  const likeness = likenessOf(smooth, longest + 1);
  const best = firstPeak(likeness, from, longest);
  if (best === undefined || at(likeness, best) < 0.7) return undefined;
  return correlation(smooth, sumsOfSquares(smooth), 2 * best) >= 0.5 ? best : undefined;
}

function movingMean(values: Float64Array, width: number): Float64Array {
  const means = new Float64Array(Math.max(0, values.length - width + 1));
  let sum = 0;
  for (let index = 0; index < values.length; index += 1) {
    sum += at(values, index) - (index >= width ? at(values, index - width) : 0);
    if (index >= width - 1) means[index - width + 1] = sum / width;
  }
  return means;
}

/** Without mean and straight drift: evenly spaced values have their slope in one sum. */
function levelled(values: Float64Array): Float64Array {
  const middle = (values.length - 1) / 2;
  let [sum, turning, squares] = [0, 0, 0];
  for (let index = 0; index < values.length; index += 1) {
    const [off, value] = [index - middle, at(values, index)];
    sum += value;
    turning += off * value;
    squares += off * off;
  }
  const [mean, slope] = [sum / values.length, squares > 0 ? turning / squares : 0];
  return values.map((value, index) => value - mean - slope * (index - middle));
}

const rootMeanSquare = (values: Float64Array): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / Math.max(1, values.length - 1));

/** Correlation with itself at every distance below `lags`. */
function likenessOf(values: Float64Array, lags: number): Float64Array {
  const sums = sumsOfSquares(values);
  return Float64Array.from({ length: lags + 1 }, (_, lag) => correlation(values, sums, lag));
}

/** Sums of the squares up to each place: those of any stretch are then one difference. */
function sumsOfSquares(values: Float64Array): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let index = 0; index < values.length; index += 1)
    sums[index + 1] = at(sums, index) + at(values, index) * at(values, index);
  return sums;
}

function correlation(values: Float64Array, sums: Float64Array, lag: number): number {
  const many = values.length - lag;
  let together = 0;
  // The one loop whose cost is felt: every pair of values of a pull goes through it.
  for (let index = 0; index < many; index += 1) together += (values[index] ?? 0) * (values[index + lag] ?? 0);
  const [early, late] = [at(sums, many), at(sums, values.length) - at(sums, lag)];
  return early * late > 0 ? together / Math.sqrt(early * late) : 0;
}

/** The first rise to nearly the best likeness: later ones are several periods. */
function firstPeak(likeness: Float64Array, from: number, to: number): number | undefined {
  const peaks: number[] = [];
  for (let lag = from; lag <= to; lag += 1) {
    const here = at(likeness, lag);
    if (here >= (likeness[lag - 1] ?? 0) && here > (likeness[lag + 1] ?? 0)) peaks.push(lag);
  }
  const best = Math.max(...peaks.map((lag) => at(likeness, lag)));
  return peaks.find((lag) => at(likeness, lag) >= 0.85 * best);
}
