import { expect, test } from 'vitest';
import { drawAxles } from '../../../../../src/shared/axle/plan/draws.ts';
import type { Axle } from '../../../../../src/shared/axle/plan/guess.ts';
import { type Belief, learn } from '../../../../../src/shared/axle/plan/learn.ts';
import { seenAt } from '../../../../../src/shared/axle/plan/outlook.ts';
import { priorOf, soundCutting } from '../../../../../src/shared/axle/plan/priorOf.ts';
import { readingsOf } from '../../../../../src/shared/axle/plan/reading.ts';
import { sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { asked } from './scenes.ts';

function priorAlone(): Belief {
  const input = asked();
  const sight = sightOf(input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  const about = { sight: sight.value, prior: priorOf(input, sight.value, soundCutting), readings: [] };
  return learn(about);
}

const spreadOf = (axles: readonly Axle[], of: (axle: Axle) => number): number =>
  Math.sqrt(axles.reduce((sum, axle) => sum + of(axle) ** 2, 0) / axles.length);

test('axles drawn where nothing was read have the spread they are usually given', () => {
  const belief = priorAlone();
  const { prior } = belief.about;
  const axles = drawAxles(belief, 400);
  expect(axles).toHaveLength(400);
  // Of x + t x³ for a standard normal x: √(1 + 6 t + 15 t²).
  const { pinionOut_mm, tail } = prior.position;
  const pinion = pinionOut_mm * Math.sqrt(1 + 6 * tail + 15 * tail ** 2);
  expect(Math.abs(spreadOf(axles, (axle) => axle.pinionOut) / pinion - 1)).toBeLessThan(0.15);
  expect(Math.abs(spreadOf(axles, (axle) => axle.relief.coast.crown) / prior.cutting.crown - 1)).toBeLessThan(0.15);
  const logs = spreadOf(axles, (axle) => Math.log(axle.film / prior.film_mm));
  expect(Math.abs(logs / prior.filmSpread - 1)).toBeLessThan(0.15);
  const off = spreadOf(axles, (axle) => axle.perRingAway - prior.perRingAway.mean);
  expect(Math.abs(off / prior.perRingAway.spread - 1)).toBeLessThan(0.15);
});

test('every axle drawn after a reading shows its backlash, whatever explains it', () => {
  const input = asked();
  const sight = sightOf(input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  const readings = readingsOf(input);
  const about = { sight: sight.value, prior: priorOf(input, sight.value, soundCutting), readings };
  const axles = drawAxles(learn(about), 40);
  const read = axles.map((axle) => seenAt(sight.value, axle, { pinionOut: 0, ringAway: 0 }).backlash - 0.25);
  const doubt = readings[0]?.backlash?.doubt ?? 0;
  expect(Math.sqrt(read.reduce((sum, off) => sum + off * off, 0) / read.length) / doubt).toBeLessThan(1.5);
  expect(spreadOf(axles, (axle) => axle.pinionOut)).toBeGreaterThan(0.02);
});

test('the same belief is always drawn the same', () => {
  expect(drawAxles(priorAlone(), 30)).toEqual(drawAxles(priorAlone(), 30));
});
