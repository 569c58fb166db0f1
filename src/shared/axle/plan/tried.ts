import { squares } from '../../basics/cholesky.ts';
import { type Axle, axleFrom, bearsOn, type Guess, type Prior } from './guess.ts';
import { type Marks, misfitsOf, shownIn } from './misfit.ts';
import type { Reading } from './reading.ts';
import type { Sight } from './sight.ts';

/** What is being explained, and under which prior. */
export interface Case {
  readonly sight: Sight;
  readonly prior: Prior;
  readonly readings: readonly Reading[];
}

/** A guess with what it would have shown. */
export interface Tried {
  readonly guess: Guess;
  readonly marks: readonly Marks[];
  readonly misfits: Float64Array;
  /** Squared misfits and squared departures from the prior: what the likeliest axle makes smallest. */
  readonly cost: number;
}

export function tryGuess(about: Case, guess: Guess): Tried {
  const { prior, readings } = about;
  const axle = axleFrom(prior, guess);
  const marks = readings.map((reading, index) => ({
    drive: shownIn(axle, 'drive', reading, index),
    coast: shownIn(axle, 'coast', reading, index),
  }));
  return triedWith(about, guess, axle, marks);
}

function triedWith({ sight, readings }: Case, guess: Guess, axle: Axle, marks: readonly Marks[]): Tried {
  const misfits = Float64Array.from(
    readings.flatMap((reading, index) => {
      const shown = marks[index];
      return shown === undefined ? [] : misfitsOf(sight, axle, reading, shown);
    }),
  );
  return { guess, marks, misfits, cost: squares(misfits) + squares(guess) };
}

/** The same guess with one unknown moved. Only the marks that it bears on are brought together again. */
export function tryMoved(about: Case, from: Tried, index: number, by: number): Tried {
  const guess = Float64Array.from(from.guess);
  guess[index] = (guess[index] ?? 0) + by;
  const axle = axleFrom(about.prior, guess);
  const marks = about.readings.map((reading, n): Marks => {
    const was = from.marks[n];
    const mark = (side: 'drive' | 'coast') =>
      was === undefined || bearsOn(about.prior, index, side, n) ? shownIn(axle, side, reading, n) : was[side];
    return { drive: mark('drive'), coast: mark('coast') };
  });
  return triedWith(about, guess, axle, marks);
}

/** A guess that differs only in unknowns that bear on no mark. */
export const triedAgain = (about: Case, from: Tried, guess: Guess): Tried =>
  triedWith(about, guess, axleFrom(about.prior, guess), from.marks);
