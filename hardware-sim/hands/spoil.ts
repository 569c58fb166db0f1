import type { Random } from '../seeded.ts';

/** What can go wrong while a station is rocked, each so that the two rests no longer tell the backlash. */
export type Spoil =
  /** The indicator's foot was knocked: everything after this rock stands elsewhere. */
  | { readonly kind: 'base-moved'; readonly by_mm: number; readonly atRock: number }
  /** The pinion was not held: both stops walk away together. */
  | { readonly kind: 'pinion-moved'; readonly perRock_mm: number }
  /** The gear is let go of slowly: no rest stands still. */
  | { readonly kind: 'not-held'; readonly creep_mm_per_s: number }
  /** Only one side is ever pressed home; the other is left short by a share of the backlash that differs each time. */
  | { readonly kind: 'one-sided'; readonly short: 'low' | 'high' }
  /** Rocks that differ from each other by this much (sd). */
  | { readonly kind: 'not-repeating'; readonly spread_mm: number }
  /** The stem meets an end of its travel before the gear meets its stop; the caller sets the preload so. */
  | { readonly kind: 'end-of-travel'; readonly end_mm: number; readonly side: 'low' | 'high' };

interface Arrival {
  readonly place: number;
  readonly stop: 'low' | 'high';
  readonly rock: number;
  readonly rocks: number;
  readonly backlash_mm: number;
}

interface Spoiler {
  /** Where the stem really comes to stand. */
  stop(arrival: Arrival): number;
  /** How it stands there. */
  rest(place: number, outward: number): (elapsed_s: number) => number;
}

const still = (place: number) => () => place;

function shift(spoil: Spoil, arrival: Arrival, random: Random): number {
  const inward = arrival.stop === 'low' ? 1 : -1;
  switch (spoil.kind) {
    case 'base-moved':
      return arrival.rock >= spoil.atRock ? spoil.by_mm : 0;
    case 'pinion-moved':
      return spoil.perRock_mm * (arrival.rock + (arrival.stop === 'low' ? 0 : 0.5));
    case 'one-sided':
      return arrival.stop === spoil.short ? inward * arrival.backlash_mm * random.uniform(0.15, 0.7) : 0;
    case 'not-repeating':
      return random.normal(0, spoil.spread_mm / Math.SQRT2);
    case 'not-held':
    case 'end-of-travel':
      return 0;
    default:
      throw new Error(`no such spoil: ${JSON.stringify(spoil satisfies never)}`);
  }
}

const clamp = (spoil: Spoil, place: number): number => {
  if (spoil.kind !== 'end-of-travel') return place;
  return spoil.side === 'low' ? Math.max(spoil.end_mm, place) : Math.min(spoil.end_mm, place);
};

/** What a spoil does to the stops; without one, nothing. */
export function spoiler(spoil: Spoil | undefined, random: Random): Spoiler {
  if (spoil === undefined) return { stop: (arrival) => arrival.place, rest: still };
  return {
    stop: (arrival) => clamp(spoil, arrival.place + shift(spoil, arrival, random)),
    rest: (place, outward) =>
      spoil.kind === 'not-held' ? (elapsed_s) => place - outward * spoil.creep_mm_per_s * elapsed_s : still(place),
  };
}
