import type { PlanInput } from './input.ts';
import type { Place } from './sight.ts';

/**
 * What touching a part costs, as chance of being right that it must earn (own choice): the pinion comes out of its
 * bearings for a depth shim, side packs want the caps off and the preload measured anew, adjusters are turned in place.
 */
const prices = { pinion: 0.1, sidePacks: 0.03, adjusters: 0 } as const;

/** Less than this the chances of two places cannot be told apart, whatever the change costs. */
export const grain = 0.01;

/** Price of going from one place to another; packs where nobody said how the ring gear is moved. */
export function priceOf(from: Place, to: Place, { places }: Pick<PlanInput, 'places'>): number {
  const side = places?.sides === 'threaded-adjusters' ? prices.adjusters : prices.sidePacks;
  const moved = { pinion: from.pinionOut !== to.pinionOut, ring: from.ringAway !== to.ringAway };
  // The case with its side packs comes out before the pinion can; only a pinion in a cage of its own comes without it.
  const packsAreOut = moved.pinion && places?.depth !== 'under-cage';
  return (moved.pinion ? prices.pinion : 0) + (moved.ring && !packsAreOut ? side : 0);
}
