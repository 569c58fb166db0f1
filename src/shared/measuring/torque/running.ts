import { mean } from '../../basics/statistics.ts';
import { partTurn } from './partTurn.ts';
import type { PullKnown } from './pulls.ts';

/** What the shaft runs at, and how that came about. */
export interface Running {
  readonly mean: number;
  readonly average: 'whole-turns' | 'part-turn' | 'time';
  /** What was averaged: turns, periods, or pulls. */
  readonly means: readonly number[];
  /** How turns were told apart; by angle the mean is that over the angle, else over the time. */
  readonly by: 'angle' | 'time';
  /** Standard uncertainty of a mean that is not one of whole turns. */
  readonly u: number;
  /** Chance that less than a turn was seen. */
  readonly partly: number;
  /** Change from the first to the last of a mean over the time. */
  readonly change: number;
}

/** Whole turns by angle or marks, else whole periods, else what the readings let expect of a whole turn. */
export function runningOf(pulls: readonly PullKnown[], resolution: number): Running | undefined {
  if (pulls.length === 0) return undefined;
  const turns = pulls.flatMap((one) => one.turns);
  const by = pulls.some(({ pull }) => pull.travel.length > 0) ? 'angle' : 'time';
  if (turns.length > 0) return whole(turns, by);
  const periods = pulls.flatMap(({ pull, correction }) => pull.periods.map((period) => period + correction));
  if (periods.length > 0) return whole(periods, 'time');
  return fromParts(pulls, resolution, by);
}

const whole = (means: readonly number[], by: Running['by']): Running => ({
  mean: mean(means),
  average: 'whole-turns',
  means,
  by,
  u: 0,
  partly: 0,
  change: 0,
});

/** Pulls that each saw a part of the turn count by how much each of them tells. */
function fromParts(pulls: readonly PullKnown[], resolution: number, by: Running['by']): Running {
  const fits = pulls.map(({ pull, correction }) => {
    const fit = partTurn(pull, resolution);
    return { ...fit, mean: fit.mean + correction };
  });
  const weights = fits.map(({ u }) => 1 / Math.max(u, 1e-9) ** 2);
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const middle = fits.reduce((sum, fit, index) => sum + fit.mean * (weights[index] ?? 0), 0) / whole;
  const apart = fits.reduce((sum, fit, index) => sum + (fit.mean - middle) ** 2 * (weights[index] ?? 0), 0);
  const birge = fits.length < 2 ? 1 : Math.max(1, Math.sqrt(apart / (fits.length - 1)));
  const partly = Math.min(...fits.map((fit) => fit.partly));
  return {
    mean: middle,
    average: partly >= 0.5 ? 'part-turn' : 'time',
    means: fits.map((fit) => fit.mean),
    by,
    u: birge / Math.sqrt(whole),
    partly,
    change: fits.reduce((sum, fit) => sum + fit.change, 0),
  };
}
