import type { Relief } from './quickFlank.ts';
import type { Side } from './input.ts';

/**
 * What is not known of a set on the stand, as numbers that are each about normal with mean 0 and spread 1 before
 * anything has been read ("standard units"). The order is fixed; `layout` names it.
 */
export type Guess = Float64Array;

const shared = [
  'film',
  'lengthwise',
  'profile',
  'pinionOut',
  'ringAway',
  'backlash',
  'perPinionOut',
  'perRingAway',
] as const;
const ofFlank = ['heel', 'crown', 'a', 'b', 'c'] as const;
type Shared = (typeof shared)[number];
type OfFlank = (typeof ofFlank)[number];

export const sharedAt = (name: Shared): number => shared.indexOf(name);
export const flankAt = (side: Side, name: OfFlank): number =>
  shared.length + (side === 'drive' ? 0 : ofFlank.length) + ofFlank.indexOf(name);
export const guessSize = shared.length + 2 * ofFlank.length;

/** Which unknowns change the marks of a side; the backlash ones change none. */
export const bearsOn = (index: number): 'both' | 'none' | Side => {
  if (index < sharedAt('backlash')) return 'both';
  if (index < shared.length) return 'none';
  return index < shared.length + ofFlank.length ? 'drive' : 'coast';
};

/** How unsure each unknown is before anything has been read. */
export interface Prior {
  /** Film of the compound (mm) and the natural logarithm of its spread. */
  readonly film_mm: number;
  readonly filmSpread: number;
  /** Middle curvatures (1/mm) and logarithmic spreads: what both flanks share and what each has of its own. */
  readonly curvature: Readonly<Record<Side, { readonly a: number; readonly b: number; readonly c: number }>>;
  readonly curvatureSpread: { readonly shared: number; readonly own: number };
  /** How much of a film thicker than usual goes with curvatures larger than usual (0…1): see docs/plan.md. */
  readonly withFilm: number;
  /** Spread of b/√(ac). */
  readonly biasSpread: number;
  /** Spread of each flank's apex, as fractions of the flank: the cutting error. */
  readonly cutting: { readonly heel: number; readonly crown: number };
  /** Spread of where the first trial stood from where the gears were cut to stand (mm). */
  readonly position_mm: number;
  /** Backlash there (mm) and its spread: sets are made to run with their backlash inside the window. */
  readonly backlash_mm: number;
  readonly backlashSpread_mm: number;
  /** Spread of what the model's backlash for each mm moved is off by (mm per mm). */
  readonly perPinionOut: number;
  readonly perRingAway: number;
}

/** A guess in the units of the axle. */
export interface Axle {
  readonly film: number;
  readonly pinionOut: number;
  readonly ringAway: number;
  readonly backlash: number;
  readonly perPinionOut: number;
  readonly perRingAway: number;
  readonly relief: Readonly<Record<Side, Relief>>;
}

export function axleFrom(prior: Prior, guess: Guess): Axle {
  const at = (name: Shared): number => guess[sharedAt(name)] ?? 0;
  return {
    film: prior.film_mm * Math.exp(prior.filmSpread * at('film')),
    pinionOut: prior.position_mm * at('pinionOut'),
    ringAway: prior.position_mm * at('ringAway'),
    backlash: prior.backlash_mm + prior.backlashSpread_mm * at('backlash'),
    perPinionOut: prior.perPinionOut * at('perPinionOut'),
    perRingAway: prior.perRingAway * at('perRingAway'),
    relief: { drive: reliefFrom(prior, guess, 'drive'), coast: reliefFrom(prior, guess, 'coast') },
  };
}

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
  };
}
