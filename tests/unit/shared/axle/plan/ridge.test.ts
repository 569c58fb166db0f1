import { expect, test } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { axleBy, chancesIn, type WorldAxle } from '../../../../../hardware-sim/worlds/axles/axle.ts';
import { base, drawKind } from '../../../../../hardware-sim/worlds/axles/population.ts';
import { drawAxles } from '../../../../../src/shared/axle/plan/draws.ts';
import { insightFrom } from '../../../../../src/shared/axle/plan/insight.ts';
import { type Belief, learn } from '../../../../../src/shared/axle/plan/learn.ts';
import type { PlanInput } from '../../../../../src/shared/axle/plan/input.ts';
import { priorOf, soundCutting } from '../../../../../src/shared/axle/plan/priorOf.ts';
import { readingsOf } from '../../../../../src/shared/axle/plan/reading.ts';
import { held, reachOf, ridgeOf } from '../../../../../src/shared/axle/plan/ridge.ts';
import { sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { firstOrderSubject } from '../../../../performance/plan/firstOrder.ts';
import { asked, edges, mark, setWith, shown, trial } from './scenes.ts';

const world = { population: { ...base, position: 0.5 }, told: 'all' as const };

/** The same axle that `firstOrderSubject` draws, for what it hides. */
function truthOf(seed: number): WorldAxle {
  const random = seeded(seed * 7919 + 101);
  const kind = drawKind(random, world.population);
  return axleBy(
    world.population,
    kind,
    Float64Array.from({ length: chancesIn }, () => random.normal(0, 1)),
  );
}

function firstTrialOf(seed: number): PlanInput {
  const subject = firstOrderSubject(world, seed);
  if (subject === undefined) throw new Error('no position of this axle is right');
  return subject.ask([subject.tryAt({ pinionOut: 0, ringAway: 0 }, 0)]);
}

function beliefOf(input: PlanInput): Belief {
  const sight = sightOf(input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  return learn({
    sight: sight.value,
    prior: priorOf(input, sight.value, soundCutting),
    readings: readingsOf(input),
  });
}

// Marks cut off in height by an edge: what fits them lies along a long ridge, from a lively set near to a lazy one far off.
const cutOff = [400_002, 400_004, 400_010, 400_012, 400_016, 400_026, 400_027, 400_035, 400_036, 400_037];

test('of marks cut off far from their place, the axles drawn are spread about the true distance', () => {
  const off = cutOff.map((seed) => {
    const distances = drawAxles(beliefOf(firstTrialOf(seed)), 40).map(({ pinionOut }) => pinionOut);
    const mean = distances.reduce((sum, one) => sum + one, 0) / distances.length;
    const sd = Math.sqrt(distances.reduce((sum, one) => sum + (one - mean) ** 2, 0) / distances.length);
    return (mean - truthOf(seed).start.out) / sd;
  });
  // Before the ridge was walked these were off by 5 standard deviations (root mean square), and one by 14.
  expect(Math.sqrt(off.reduce((sum, one) => sum + one * one, 0) / off.length)).toBeLessThan(3);
});

test('stops stand in order along the ridge, and together they stand for all of it', () => {
  const stops = ridgeOf(beliefOf(firstTrialOf(400_027)));
  const distances = stops.map(({ likeliest }) => likeliest.guess[held] ?? Number.NaN);
  expect(stops.length).toBeGreaterThan(4);
  expect(distances).toEqual(distances.toSorted((a, b) => a - b));
  const reach = reachOf(stops);
  reach.slice(1).forEach(({ from }, n) => {
    const [before, here] = [distances[n] ?? Number.NaN, distances[n + 1] ?? Number.NaN];
    expect(before + (reach[n]?.to ?? Number.NaN)).toBeCloseTo(here + from, 9);
  });
});

test('with the cut not known, a change shows which way the gears were cut', () => {
  for (const cut of ['face-milled', 'face-hobbed'] as const) {
    const axle = { cut, driveFlank: 'convex' as const, film_mm: 0.008, start: { pinionOut: -0.1, ringAway: 0.05 } };
    const input = asked({ set: setWith('not-known'), trials: [shown(axle, 0, 0), shown(axle, 0.2, -0.08)] });
    const sight = sightOf(input);
    if (!sight.ok) throw new Error(sight.problem.sentence);
    const { axles } = insightFrom(input, sight.value);
    const milled = axles.filter(({ flanks }) => flanks === sight.value.flanks).length / axles.length;
    expect(cut === 'face-milled' ? milled : 1 - milled).toBeGreaterThan(0.8);
  }
});

test('with the cut not known and one trial, both ways of cutting stay possible', () => {
  const drive = mark({ crown: -0.2, edges: edges({ root: 'feathered' }) });
  const input = asked({ set: setWith('not-known'), trials: [trial({ pattern: { drive, coast: drive } })] });
  const sight = sightOf(input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  const { axles } = insightFrom(input, sight.value);
  const milled = axles.filter(({ flanks }) => flanks === sight.value.flanks).length / axles.length;
  expect(milled).toBeGreaterThan(0.15);
  expect(milled).toBeLessThan(0.85);
});
