import { describe, expect, test } from 'vitest';
import type { PlanInput } from '../../../../../src/shared/axle/plan/input.ts';
import { backlashAnswer, priorOf, soundCutting } from '../../../../../src/shared/axle/plan/priorOf.ts';
import { sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { asked, mark, setWith, trial } from './scenes.ts';

function usualFor(change: Partial<PlanInput> = {}) {
  const input = asked(change);
  const sight = sightOf(input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  return { usual: priorOf(input, sight.value, soundCutting), easeoff: sight.value.model.flanks };
}
const painted = (film_um: number) => mark({ made: { film_um } });
const filmed = (...films: readonly (number | undefined)[]) =>
  films.map((film) => trial({ pattern: { drive: film === undefined ? mark() : painted(film), coast: mark() } }));

describe('what is usual before anything has been read', () => {
  test('backlash lies about the middle of its window, as wide as a quarter of it, and never surer than 0.02 mm', () => {
    const wide = usualFor({ limits: { backlash_mm: [0.2, 0.4] } }).usual;
    expect(wide.backlash_mm).toBeCloseTo(0.3, 12);
    expect(wide.backlashSpread_mm).toBeCloseTo(0.05, 12);
    const narrow = usualFor({ limits: { backlash_mm: [0.2, 0.22] } }).usual;
    expect(narrow.backlashSpread_mm).toBe(0.02);
  });

  test('a used set has the backlash it was found with', () => {
    const target = { kind: 'used-set', drive: mark(), coast: mark(), backlash_mm: 0.42 } as const;
    expect(usualFor({ target }).usual.backlash_mm).toBe(0.42);
  });

  test('the film is what somebody measured, the last word counting, and surer for it', () => {
    const guessed = usualFor({ trials: filmed(undefined) }).usual;
    const told = usualFor({ trials: filmed(6, undefined, 11) }).usual;
    expect(told.film_mm).toBeCloseTo(0.011, 12);
    expect(told.filmSpread).toBeLessThan(guessed.filmSpread);
    const coast = [trial({ pattern: { drive: mark(), coast: painted(9) } })];
    expect(usualFor({ trials: coast }).usual.film_mm).toBeCloseTo(0.009, 12);
  });

  test('the model’s answers in backlash are taken for what published ones say of them', () => {
    const { perPinionOut, perRingAway } = usualFor().usual;
    expect({ perPinionOut, perRingAway }).toEqual(backlashAnswer);
    // Published 0.5 to 0.8 mm for a millimetre, the model about 0.9: less by a little, and by how much nobody knows.
    expect(perRingAway.mean).toBeLessThan(0);
    expect(perRingAway.spread).toBeGreaterThan(-perRingAway.mean);
  });

  test('each flank has its own curvatures, and a rolled mark is larger than they say', () => {
    for (const driveFlank of ['convex', 'concave'] as const) {
      const { usual, easeoff } = usualFor({ set: setWith('face-milled', driveFlank) });
      const coastFlank = driveFlank === 'convex' ? 'concave' : 'convex';
      expect(usual.curvature.drive.a / easeoff[driveFlank].easeoff.a).toBeCloseTo(1.2, 9);
      expect(usual.curvature.drive.c / easeoff[driveFlank].easeoff.c).toBeCloseTo(1.2, 9);
      expect(usual.curvature.coast.a / easeoff[coastFlank].easeoff.a).toBeCloseTo(1.2, 9);
      expect(usual.curvature.drive.b).toBe(easeoff[driveFlank].easeoff.b);
    }
  });
});
