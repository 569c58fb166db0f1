import type { PlanInput } from './input.ts';
import type { Place } from './sight.ts';

/**
 * What touching a part costs, as chance of being right that it must earn (own choice): the pinion comes out of its
 * bearings for a depth shim, side packs want the caps off and the preload measured anew, adjusters are turned in place.
 */
const prices = { pinion: 0.12, sidePacks: 0.03 } as const;

export function priceOf(from: Place, to: Place, _input: PlanInput): number {
  const pinion = from.pinionOut === to.pinionOut ? 0 : prices.pinion;
  const side = from.ringAway === to.ringAway ? 0 : prices.sidePacks;
  return pinion + side;
}
