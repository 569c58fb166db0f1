import type { Compared, SceneMeasured } from './measured.ts';

/** One row of the table: how a world was answered. Shares are of figures, not of scenes. */
export interface Tally {
  readonly figures: number;
  readonly given: number;
  /** Given, and the truth lies within U95. */
  readonly covered: number;
  /** Given, beyond three times U95, and not one flag. A number where nothing was measured counts here too. */
  readonly wrongSilent: number;
  readonly wrongFlagged: number;
  /** `within` on a number that is none. */
  readonly withinOnNone: number;
  readonly miscounted: number;
  readonly medianU95: number;
  /** 95th percentile of the error. */
  readonly error95: number;
  readonly refused: ReadonlyMap<string, number>;
  readonly flags: ReadonlyMap<string, number>;
}

interface Given {
  readonly error: number;
  readonly U95: number;
  readonly flags: readonly string[];
}

export function tally(scenes: readonly SceneMeasured[]): Tally {
  const figures = scenes.flatMap((scene) => scene.figures);
  const given = figures.flatMap(asGiven);
  const wrong = given.filter(({ error, U95 }) => error > 3 * U95);
  const refused = figures.flatMap(({ value }) => (typeof value === 'number' ? [] : [value.none]));
  return {
    figures: figures.length,
    given: given.length,
    covered: given.filter(({ error, U95 }) => error <= U95).length,
    wrongSilent: wrong.filter(({ flags }) => flags.length === 0).length,
    wrongFlagged: wrong.filter(({ flags }) => flags.length > 0).length,
    withinOnNone: figures.filter(({ value, verdict }) => typeof value !== 'number' && verdict === 'within').length,
    miscounted: scenes.filter(({ counted }) => !counted).length,
    medianU95: quantile(
      given.map(({ U95 }) => U95),
      0.5,
    ),
    error95: quantile(
      given.map(({ error }) => error),
      0.95,
    ),
    refused: counted(refused),
    flags: counted(given.flatMap(({ flags }) => flags)),
  };
}

/** Where nothing was measured every number is infinitely wrong. */
const asGiven = ({ value, truth, U95, flags }: Compared): readonly Given[] =>
  typeof value === 'number' ? [{ error: truth === 'none' ? Infinity : Math.abs(value - truth), U95, flags }] : [];

const quantile = (values: readonly number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;

function counted(words: readonly string[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return new Map([...counts].toSorted(([, a], [, b]) => b - a));
}
