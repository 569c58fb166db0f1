import { expect, test } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { axleBy, chancesIn } from '../../../../../hardware-sim/worlds/axles/axle.ts';
import { base, drawKind } from '../../../../../hardware-sim/worlds/axles/population.ts';
import { insightFrom } from '../../../../../src/shared/axle/plan/insight.ts';
import { sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { firstOrderSubject } from '../../../../performance/plan/firstOrder.ts';

// Marks cut off in height of axles that stand near their place, on a truth whose marks are plain ellipses. With marks rolled
// for certain and starts spread by 0.5 mm they were held to stand some 0.2 mm too far off at the mean.
const near = [610_002, 610_008, 610_012, 610_017, 610_025, 610_027, 610_035, 610_057];

/** How far the pinion stands from its place in truth (mm), and in the mean of the axles that fit the first trial. */
function distances(seed: number): { readonly truly: number; readonly believed: number } {
  const subject = firstOrderSubject({ population: base, told: 'all' }, seed);
  if (subject === undefined) throw new Error('no position of this axle is right');
  const random = seeded(seed * 7919 + 101);
  const kind = drawKind(random, base);
  const chances = Float64Array.from({ length: chancesIn }, () => random.normal(0, 1));
  const input = subject.ask([subject.tryAt({ pinionOut: 0, ringAway: 0 }, 0)]);
  const sight = sightOf(input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  const { axles } = insightFrom(input, sight.value);
  const believed = axles.reduce((sum, { pinionOut }) => sum + pinionOut, 0) / axles.length;
  return { truly: axleBy(base, kind, chances).start.out, believed };
}

test('the axles that fit a first trial are not held to stand much farther off than they do', () => {
  const beyond = near.map((seed) => {
    const { truly, believed } = distances(seed);
    return (believed - truly) * Math.sign(truly);
  });
  const mean = beyond.reduce((sum, one) => sum + one, 0) / beyond.length;
  expect(mean).toBeLessThan(0.15);
});
