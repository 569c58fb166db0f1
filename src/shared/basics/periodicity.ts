import { at } from './at.ts';
import { fitLine } from './leastSquares.ts';
import { sd } from './statistics.ts';

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
  const smooth = levelled(movingMean(values, width));
  const longest = Math.floor(smooth.length / 2.5);
  if (longest < quickest + 2 || sd(smooth) < (2 * noise) / Math.sqrt(width)) return undefined;
  if (sd(smooth) < 0.3 * sd(levelled(values))) return undefined;
  const likeness = Array.from({ length: 2 * longest + 1 }, (_, lag) => correlation(smooth, lag));
  const best = firstPeak(likeness, Math.ceil(quickest), longest);
  if (best === undefined || at(likeness, best) < 0.7) return undefined;
  return at(likeness, 2 * best) >= 0.5 ? best : undefined;
}

function movingMean(values: readonly number[], width: number): readonly number[] {
  const means: number[] = [];
  let sum = 0;
  for (const [index, value] of values.entries()) {
    sum += value - (index >= width ? at(values, index - width) : 0);
    if (index >= width - 1) means.push(sum / width);
  }
  return means;
}

/** Without mean and straight drift. */
function levelled(values: readonly number[]): readonly number[] {
  const fit = fitLine([...values.keys()], values);
  return fit === undefined ? values : fit.residuals;
}

function correlation(values: readonly number[], lag: number): number {
  let [together, early, late] = [0, 0, 0];
  for (let index = 0; index + lag < values.length; index += 1) {
    const [a, b] = [at(values, index), at(values, index + lag)];
    together += a * b;
    early += a * a;
    late += b * b;
  }
  return early * late > 0 ? together / Math.sqrt(early * late) : 0;
}

/** The first rise to nearly the best likeness: later ones are several periods. */
function firstPeak(likeness: readonly number[], from: number, to: number): number | undefined {
  const peaks: number[] = [];
  for (let lag = from; lag <= to; lag += 1) {
    const here = at(likeness, lag);
    if (here >= (likeness[lag - 1] ?? 0) && here > (likeness[lag + 1] ?? 0)) peaks.push(lag);
  }
  const best = Math.max(...peaks.map((lag) => at(likeness, lag)));
  return peaks.find((lag) => at(likeness, lag) >= 0.85 * best);
}
