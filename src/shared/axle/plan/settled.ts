import { choleskyOf, solveLower, solveUpper, type Square } from '../../basics/cholesky.ts';
import { axleFrom, type Guess, type Prior, sharedAt } from './guess.ts';
import type { Reading } from './reading.ts';
import { backlashAt } from './sight.ts';
import type { Steady } from './steady.ts';
import { type Case, triedAgain, type Tried } from './tried.ts';

/**
 * The unknowns that bear on the backlash alone stand in it as straight lines, so that for given marks their likeliest
 * values and their spread are known exactly (conditional normal distribution) and need no search.
 */
const unknowns = [sharedAt('backlash'), sharedAt('perPinionOut'), sharedAt('perRingAway')] as const;

export interface BacklashLines {
  /** For each reading that has a backlash, what each of the three unknowns does to its misfit. */
  readonly slopes: readonly { readonly reading: number; readonly by: readonly number[] }[];
  readonly precision: Square;
}

/** Readings of gears that bind bound the backlash from one side only and are left out. */
export function backlashLines(prior: Prior, readings: readonly Reading[]): BacklashLines {
  const slopes = readings.flatMap(({ backlash, place }, reading) => {
    if (backlash === undefined || backlash.mean <= 0) return [];
    const spreads = [
      prior.backlashSpread_mm,
      prior.perPinionOut.spread * place.pinionOut,
      prior.perRingAway.spread * place.ringAway,
    ];
    return [{ reading, by: spreads.map((spread) => spread / backlash.doubt) }];
  });
  const matrix = Float64Array.from({ length: 9 }, (_, k) => {
    const [i, j] = [Math.floor(k / 3), k % 3];
    return slopes.reduce((sum, { by }) => sum + (by[i] ?? 0) * (by[j] ?? 0), i === j ? 1 : 0);
  });
  return { slopes, precision: choleskyOf(matrix, 3) };
}

/** The same marks with the backlash unknowns at their likeliest. */
export function settled(about: Case, lines: BacklashLines, tried: Tried): Tried {
  const guess = Float64Array.from(tried.guess);
  for (const index of unknowns) guess[index] = 0;
  const off = missesAt(about, lines, tried, guess);
  const right = Float64Array.from({ length: 3 }, (_, i) =>
    lines.slopes.reduce((sum, { by }, n) => sum - (by[i] ?? 0) * (off[n] ?? 0), 0),
  );
  const best = solveUpper(lines.precision, solveLower(lines.precision, right));
  unknowns.forEach((index, i) => (guess[index] = best[i] ?? 0));
  return triedAgain(about, tried, guess);
}

/** Backlash misfits of a guess with these marks, in standard uncertainties. */
function missesAt({ sight, prior, readings }: Case, { slopes }: BacklashLines, tried: Tried, guess: Guess): number[] {
  const axle = axleFrom(prior, guess);
  return slopes.map(({ reading }) => {
    const [read, marks] = [readings[reading], tried.marks[reading]];
    if (read?.backlash === undefined || marks === undefined) return 0;
    const shown = backlashAt(sight, axle, read.place, marks.drive.turn + marks.coast.turn);
    return (shown - read.backlash.mean) / read.backlash.doubt;
  });
}

/** A guess drawn about settled ones, as spread as the backlash readings leave them. */
export function unsettled(lines: BacklashLines, { guess }: Tried, chance: Steady): Guess {
  const away = solveUpper(
    lines.precision,
    Float64Array.from({ length: 3 }, () => chance.normal()),
  );
  const drawn = Float64Array.from(guess);
  unknowns.forEach((index, i) => (drawn[index] = (drawn[index] ?? 0) + (away[i] ?? 0)));
  return drawn;
}
