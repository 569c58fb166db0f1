import type { Taught } from './experience.ts';
import type { Side } from './input.ts';
import type { QuickFlank, Relief } from './quickFlank.ts';

/**
 * What is not known of a set on the stand, as numbers that are each about normal with mean 0 and spread 1 before
 * anything has been read ("standard units"): first what both flanks share, then each flank's own, then one for the film
 * of each reading.
 */
export type Guess = Float64Array;

const shared = [
  'film',
  'lengthwise',
  'profile',
  'pinionOut',
  'ringAway',
  'rolled',
  'backlash',
  'perPinionOut',
  'perRingAway',
  'long',
  'tall',
] as const;
const ofFlank = ['heel', 'crown', 'a', 'b', 'c', 'alongOut', 'alongAway'] as const;
type Shared = (typeof shared)[number];
type OfFlank = (typeof ofFlank)[number];

export const sharedAt = (name: Shared): number => shared.indexOf(name);
const flankAt = (side: Side, name: OfFlank): number =>
  shared.length + (side === 'drive' ? 0 : ofFlank.length) + ofFlank.indexOf(name);
const filmsAt = shared.length + 2 * ofFlank.length;

/** Unknowns there are after so many readings. */
export const guessSize = (readings: number): number => filmsAt + readings;

/** Where a guess has the unknowns that earlier builds teach, in the order of `Taught`: how sizes are read comes last. */
export const taughtAt: readonly number[] = [
  ...(['film', 'lengthwise', 'profile'] as const).map(sharedAt),
  ...(['drive', 'coast'] as const).flatMap((side) => [flankAt(side, 'a'), flankAt(side, 'c')]),
  ...(['long', 'tall'] as const).map(sharedAt),
];

/** Whether an unknown changes the mark of a side in a reading; the backlash ones change none. */
export function bearsOn({ taught }: Prior, index: number, side: Side, reading: number): boolean {
  if (index >= filmsAt) return index === filmsAt + reading;
  // What was taught ties both flanks together, so that one flank's relief bears on the other's.
  if (taught !== undefined && index >= shared.length && taughtAt.includes(index)) return true;
  if (index < sharedAt('backlash')) return true;
  if (index < shared.length) return false; // the backlash, and how sizes are read
  return index < shared.length + ofFlank.length === (side === 'drive');
}

/** How unsure each unknown is before anything has been read. */
export interface Prior {
  /** Both flanks as they were cut. */
  readonly flanks: Readonly<Record<Side, QuickFlank>>;
  /** Film of the compound (mm), the natural logarithm of its spread, and of how one reading's differs from the others'. */
  readonly film_mm: number;
  readonly filmSpread: number;
  readonly filmChange: number;
  /** Middle curvatures (1/mm) and logarithmic spreads: what both flanks share and what each has of its own. */
  readonly curvature: Readonly<Record<Side, { readonly a: number; readonly b: number; readonly c: number }>>;
  readonly curvatureSpread: { readonly shared: number; readonly own: number };
  /** How much of a film thicker than usual goes with curvatures larger than usual (0…1): see docs/plan.md. */
  readonly withFilm: number;
  /** Spread of b/√(ac). */
  readonly biasSpread: number;
  /** Spread of each flank's apex, as fractions of the flank: the cutting error. */
  readonly cutting: { readonly heel: number; readonly crown: number };
  /** Spread of what the model's tilt of the gap along the face is off by, for each mm moved (1/mm per mm). */
  readonly alongFace: number;
  /**
   * Where the first trial stood from where the gears were cut to stand (mm): spread of the ring gear, and of the pinion in
   * the bulk; `tail` makes far starts likelier than a normal spread has them.
   */
  readonly position: { readonly pinionOut_mm: number; readonly tail: number; readonly ringAway_mm: number };
  /** How far gears follow each tooth pair as they roll, as a logit: middle and spread. */
  readonly rolled: { readonly middle: number; readonly spread: number };
  /** How much longer and taller marks are read than the model paints them: middle and logarithmic spread. */
  readonly sizes: { readonly middle: number; readonly spread: number };
  /** Backlash there (mm) and its spread: sets are made to run with their backlash inside the window. */
  readonly backlash_mm: number;
  readonly backlashSpread_mm: number;
  /** What the model's backlash for each mm moved is off by, and its spread (mm per mm). */
  readonly perPinionOut: { readonly mean: number; readonly spread: number };
  readonly perRingAway: { readonly mean: number; readonly spread: number };
  /** What earlier builds have in common, where there are any: how film, relief and reading lie about the usual. */
  readonly taught?: Taught;
}

/** The same guess about what is usual, where a shop has learnt what its own builds are like. */
function aboutUsual({ taught }: Prior, guess: Guess): Guess {
  if (taught === undefined) return guess;
  const about = Float64Array.from(guess);
  taughtAt.forEach((index, row) => {
    let value = taught.mean[row] ?? 0;
    for (let column = 0; column <= row; column += 1) {
      value += (taught.lower[row * taughtAt.length + column] ?? 0) * (guess[taughtAt[column] ?? index] ?? 0);
    }
    about[index] = value;
  });
  return about;
}

/** A guess in the units of the axle. */
export interface Axle {
  readonly flanks: Readonly<Record<Side, QuickFlank>>;
  readonly film: number;
  /** Film of each reading, in their order (mm). */
  readonly films: readonly number[];
  readonly pinionOut: number;
  readonly ringAway: number;
  readonly backlash: number;
  readonly perPinionOut: number;
  readonly perRingAway: number;
  readonly relief: Readonly<Record<Side, Relief>>;
  /** How marks are read on it, over what the model paints. */
  readonly sizes: { readonly length: number; readonly height: number };
  /** How far its gears follow each tooth pair as they roll, 0…1. */
  readonly rolled: number;
}

export function axleFrom(prior: Prior, standard: Guess): Axle {
  const guess = aboutUsual(prior, standard);
  const at = (name: Shared): number => guess[sharedAt(name)] ?? 0;
  const film = prior.film_mm * Math.exp(prior.filmSpread * at('film'));
  return {
    flanks: prior.flanks,
    film,
    films: Array.from(guess.subarray(filmsAt), (change) => film * Math.exp(prior.filmChange * change)),
    pinionOut: prior.position.pinionOut_mm * longTailed(at('pinionOut'), prior.position.tail),
    ringAway: prior.position.ringAway_mm * at('ringAway'),
    backlash: prior.backlash_mm + prior.backlashSpread_mm * at('backlash'),
    perPinionOut: prior.perPinionOut.mean + prior.perPinionOut.spread * at('perPinionOut'),
    perRingAway: prior.perRingAway.mean + prior.perRingAway.spread * at('perRingAway'),
    relief: { drive: reliefFrom(prior, guess, 'drive'), coast: reliefFrom(prior, guess, 'coast') },
    sizes: { length: sizeRead(prior, at('long')), height: sizeRead(prior, at('tall')) },
    rolled: 1 / (1 + Math.exp(-prior.rolled.middle - prior.rolled.spread * at('rolled'))),
  };
}

/** A standard normal unknown with tails longer than a normal one has. */
const longTailed = (standard: number, tail: number): number => standard * (1 + tail * standard * standard);

const sizeRead = ({ sizes }: Prior, off: number): number => sizes.middle * Math.exp(sizes.spread * off);

function reliefFrom(prior: Prior, guess: Guess, side: Side): Relief {
  const at = (name: OfFlank): number => guess[flankAt(side, name)] ?? 0;
  const { shared: common, own } = prior.curvatureSpread;
  const middle = prior.curvature[side];
  const film = prior.withFilm * prior.filmSpread * (guess[sharedAt('film')] ?? 0);
  const a = middle.a * Math.exp(film + common * (guess[sharedAt('lengthwise')] ?? 0) + own * at('a'));
  const c = middle.c * Math.exp(film + common * (guess[sharedAt('profile')] ?? 0) + own * at('c'));
  const share = Math.max(-0.9, Math.min(0.9, middle.b / Math.sqrt(middle.a * middle.c) + prior.biasSpread * at('b')));
  return {
    a,
    b: share * Math.sqrt(a * c),
    c,
    heel: prior.cutting.heel * at('heel'),
    crown: prior.cutting.crown * at('crown'),
    alongOut: prior.alongFace * at('alongOut'),
    alongAway: prior.alongFace * at('alongAway'),
  };
}
