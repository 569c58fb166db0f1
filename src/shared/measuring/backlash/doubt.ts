import { differenceParts, type UncertaintyPart } from '../uncertainty/uncertainty.ts';
import type { Held } from './held.ts';
import type { BacklashSettings } from './measured.ts';
import type { Between } from './neighbours.ts';

/**
 * The parts of a station's uncertainty.
 *
 * - resolution, gauge, hysteresis: those of a difference whose two rests are approached from opposite ways; see
 *   {@link differenceParts};
 * - rocks: how much rests of one side differ, drift set aside, over how many there are, with its degrees of freedom;
 * - short of the stop: rests that differ by more than the gauge explains fell short of their stops by unlike amounts, or
 *   the stem stuck by them; hardly one goes beyond. Amounts that spread evenly from nothing to s have the standard
 *   deviation s/√12, and leave the mean short by s/2 on either side: by anything from none to s, at least s/√3. Few rests
 *   often show too little of s, and the shortfall does not average away, so a quarter more is taken (own choice);
 * - creep: how far the rests moved inwards or outwards while they were held. The stop was met some time before the
 *   middle of what was read, so about as much may be missing on either side as was seen;
 * - sway: see held.ts.
 */
export function partsOf(settings: BacklashSettings, between: Between, held: Held): readonly UncertaintyPart[] {
  return [
    ...differenceParts(settings),
    { name: 'rocks', u: between.sd * between.share, nu: between.nu },
    ...seen('short of the stop', SHORT * held.unexplained, between.nu),
    ...seen('creep', held.creep),
    ...seen('sway', held.sway),
  ];
}

/** A part only where there is something to tell. */
const seen = (name: string, u: number, nu?: number): readonly UncertaintyPart[] =>
  u === 0 ? [] : [{ name, u, ...(nu === undefined ? {} : { nu }) }];

/** s/√3 of a spread of s/√12, and a quarter more. */
const SHORT = 2.5;
