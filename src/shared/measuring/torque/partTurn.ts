import { mean } from '../../basics/statistics.ts';
import type { PullSummary } from './pull.ts';
import { meanOverTurn, type TurnMean, type TurnsGuess } from './turnFit.ts';

/** Values a fit looks at: enough for three waves a turn over a few turns, few enough to be worked out at once. */
const most = 48;

/**
 * The mean over a whole turn that a pull lets expect which was no whole turn, or of which nobody knows how many turns it
 * was. The torques are those from the zero before the pull.
 */
export function partTurn(pull: PullSummary, resolution: number): TurnMean {
  const known = fits.get(pull.steady);
  if (known?.resolution === resolution) return known.fit;
  const fit = fitted(pull, resolution);
  fits.set(pull.steady, { resolution, fit });
  return fit;
}

/** A pull that is over stays as it is, and is asked for several times a second while the next one is made. */
const fits = new WeakMap<readonly number[], { readonly resolution: number; readonly fit: TurnMean }>();

function fitted(pull: PullSummary, resolution: number): TurnMean {
  const values = gathered(pull.steady);
  const together = pull.steady.length / values.length;
  const least = Math.max(pull.noise / Math.sqrt(together), resolution / 20, 0.0015 * Math.abs(mean(values)));
  return meanOverTurn(values, guessesOf(pull, values.length), least);
}

/** Means of neighbours, so that no more than {@link most} are left. */
function gathered(values: readonly number[]): readonly number[] {
  const n = Math.min(most, values.length);
  return Array.from({ length: n }, (_, index) =>
    mean(values.slice(Math.floor((index * values.length) / n), Math.floor(((index + 1) * values.length) / n))),
  );
}

function guessesOf({ travel, seconds }: PullSummary, many: number): readonly TurnsGuess[] {
  if (travel.length > 0) {
    const places = gathered(travel).map((rad) => Math.abs(rad - (travel[0] ?? 0)) / (2 * Math.PI));
    const turns = Math.abs((travel.at(-1) ?? 0) - (travel[0] ?? 0)) / (2 * Math.PI);
    return [{ turns, weight: 1, places }];
  }
  return possibleTurns.map((turns, index) => ({
    turns,
    weight: handsChance(turns / seconds) * spacing(index),
    places: Array.from({ length: many }, (_, at) => (turns * at) / Math.max(1, many - 1)),
  }));
}

/** Closer together where it matters how much of a turn it was. */
const possibleTurns = [
  0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.15, 1.3, 1.5, 1.7, 1.9, 2.15, 2.4, 2.7, 3, 3.5,
  4, 5, 6, 8, 12,
] as const;

/** Share of the (logarithmic) scale that a possibility stands for. */
function spacing(index: number): number {
  const at = (place: number): number =>
    Math.log(possibleTurns[Math.min(possibleTurns.length - 1, Math.max(0, place))] ?? 1);
  return (at(index + 1) - at(index - 1)) / 2;
}

/** A hand turns a pinion about once in three seconds, within a factor of two in two cases of three (own assumption; turns a second). */
const handsChance = (speed: number): number => Math.exp(-0.5 * (Math.log(speed / 0.33) / Math.LN2) ** 2) + 1e-9;
