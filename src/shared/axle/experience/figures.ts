import { inverseOf } from '../../basics/cholesky.ts';
import type { Experience } from '../plan/experience.ts';
import { backlashAnswer, plainPrior } from '../plan/priorOf.ts';
import { taughtAt } from '../plan/guess.ts';
import { type Lesson, lessonAt } from './lesson.ts';

/** A figure and how unsure it is: `factor` either way for a ratio, standard uncertainty for a difference. */
export interface Ratio {
  readonly middle: number;
  readonly factor: number;
}
export interface Offset {
  readonly middle: number;
  readonly spread: number;
}

/** What is learnt in figures a person knows. */
export interface Figures {
  /** Film of the compound (µm). */
  readonly film_um: Ratio;
  /** Relief up the drive flank, as a multiple of the usual. */
  readonly relief: Ratio;
  /** What the computed backlash for each mm of the ring gear is off by (mm per mm). */
  readonly perRingAway: Offset;
}

const [film, profile, ownOfDrive] = [0, 2, 4] as const;
const ringAway = lessonAt.length - 1;

/** The logarithm of relief up the drive flank, as a sum over the unknowns. */
const reliefBy = new Map<number, number>([
  [film, plainPrior.withFilm * plainPrior.filmSpread],
  [profile, plainPrior.curvatureSpread.shared],
  [ownOfDrive, plainPrior.curvatureSpread.own],
]);

type Picture = { readonly mean: ArrayLike<number>; readonly covariance: ArrayLike<number>; readonly size: number };

function ratioOf(picture: Picture, by: ReadonlyMap<number, number>): { readonly log: number; readonly sd: number } {
  const { mean, covariance, size } = picture;
  let [log, variance] = [0, 0];
  for (const [i, a] of by) {
    log += a * (mean[i] ?? 0);
    for (const [j, b] of by) variance += a * b * (covariance[i * size + j] ?? 0);
  }
  return { log, sd: Math.sqrt(Math.max(0, variance)) };
}

function figuresFrom(picture: Picture, backlash: Offset): Figures {
  const thick = ratioOf(picture, new Map([[film, plainPrior.filmSpread]]));
  const strong = ratioOf(picture, reliefBy);
  return {
    film_um: { middle: 1000 * plainPrior.film_mm * Math.exp(thick.log), factor: Math.exp(thick.sd) },
    relief: { middle: Math.exp(strong.log), factor: Math.exp(strong.sd) },
    perRingAway: backlash,
  };
}

/** What one build says by itself, taken with what is usual. */
export function figuresOfLesson({ information, pull }: Lesson): Figures {
  const size = lessonAt.length;
  const precision = Float64Array.from(information);
  for (let k = 0; k < size; k += 1) precision[k * size + k] = (precision[k * size + k] ?? 0) + 1;
  const covariance = inverseOf(precision, size);
  const mean = pull.map((_, i) => pull.reduce((sum, value, j) => sum + (covariance[i * size + j] ?? 0) * value, 0));
  const { mean: usual, spread } = backlashAnswer.perRingAway;
  return figuresFrom(
    { mean, covariance, size },
    {
      middle: usual + spread * (mean[ringAway] ?? 0),
      spread: spread * Math.sqrt(covariance[ringAway * size + ringAway] ?? 1),
    },
  );
}

/** What all of them together lead to expect. */
export function figuresOf({ taught: { mean, lower }, perRingAway }: Experience): Figures {
  const size = taughtAt.length;
  const at = (i: number, j: number): number => lower[i * size + j] ?? 0;
  const covariance = Float64Array.from({ length: size * size }, (_, k) => {
    const [i, j] = [Math.floor(k / size), k % size];
    let sum = 0;
    for (let l = 0; l < size; l += 1) sum += at(i, l) * at(j, l);
    return sum;
  });
  return figuresFrom({ mean, covariance, size }, { middle: perRingAway.mean, spread: perRingAway.spread });
}

/** What is usual before any build: to be shown beside. */
export const usualFigures: Figures = figuresFrom(
  {
    mean: lessonAt.map(() => 0),
    covariance: Array.from({ length: lessonAt.length ** 2 }, (_, k) => (k % (lessonAt.length + 1) === 0 ? 1 : 0)),
    size: lessonAt.length,
  },
  { middle: backlashAnswer.perRingAway.mean, spread: backlashAnswer.perRingAway.spread },
);
