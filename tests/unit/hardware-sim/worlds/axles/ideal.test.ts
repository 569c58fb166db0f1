import { expect, test } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { axleBy, chancesIn } from '../../../../../hardware-sim/worlds/axles/axle.ts';
import { readTrial } from '../../../../../hardware-sim/worlds/axles/hands.ts';
import { Ideal } from '../../../../../hardware-sim/worlds/axles/ideal.ts';
import { base, drawKind } from '../../../../../hardware-sim/worlds/axles/population.ts';
import { canBeRight, rightAt } from '../../../../../hardware-sim/worlds/axles/right.ts';

/** Sets up a few axles and counts how many stand right as found and after at most two changes. */
function setUp(seeds: readonly number[]): { readonly found: number; readonly after: number } {
  let [found, after] = [0, 0];
  for (const seed of seeds) {
    const random = seeded(seed);
    const kind = drawKind(random, base);
    const axle = axleBy(
      base,
      kind,
      Float64Array.from({ length: chancesIn }, () => random.normal(0, 1)),
    );
    if (!canBeRight(axle)) continue;
    const ideal = new Ideal({ population: base, kind }, seeded(seed + 1));
    let place = { pinionOut: 0, ringAway: 0 };
    if (rightAt(axle, 0, 0)) found += 1;
    const trials = [];
    for (let trial = 0; trial < 2; trial += 1) {
      trials.push(readTrial(random, base, axle, { ...place, trial }));
      const answer = ideal.next(trials);
      place = answer.place;
      if (answer.stay) break;
    }
    if (rightAt(axle, place.pinionOut, place.ringAway)) after += 1;
  }
  return { found, after };
}

test('the ideal puts right nearly every axle of its own world with two changes', { timeout: 60_000 }, () => {
  const { found, after } = setUp([31, 32, 33, 34, 35, 36, 37, 38]);
  expect(found).toBeLessThan(5);
  expect(after).toBeGreaterThanOrEqual(7);
});
