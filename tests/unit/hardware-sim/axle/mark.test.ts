import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutGearSet, type GearSet } from '../../../../hardware-sim/axle/mesh/gearSet.ts';
import { describeMark } from '../../../../hardware-sim/axle/mesh/mark.ts';
import { mesh } from '../../../../hardware-sim/axle/mesh/mesh.ts';
import { rollThroughMesh } from '../../../../hardware-sim/axle/mesh/paint.ts';
import { HOBBED, MILLED, inventedSet } from './invented.ts';

const FILM_MM = 0.01;

function marks(set: GearSet, pinionOut_mm: number, ringAway_mm: number, film_mm = FILM_MM) {
  const met = mesh(set, { pinionOut_mm, ringAway_mm });
  const of = (name: 'convex' | 'concave') => describeMark(rollThroughMesh(met[name]), set.frame, film_mm);
  return { convex: of('convex'), concave: of('concave') };
}

const milled = cutGearSet(inventedSet(30, MILLED));
const hobbed = cutGearSet(inventedSet(30, HOBBED));
const both = [
  ['face-milled', milled],
  ['face-hobbed', hobbed],
] as const;

describe.each(both)('the mark of a %s hypoid set', (_, set) => {
  test('lies in the middle at home, and clear of toe and heel', () => {
    const { convex, concave } = marks(set, 0, 0);
    for (const mark of [convex, concave]) {
      expect(Math.abs(mark.heel)).toBeLessThan(0.03);
      expect(Math.abs(mark.crown)).toBeLessThan(0.03);
      expect([mark.edges.toe, mark.edges.heel]).toEqual(['clear', 'clear']);
    }
  });

  // Height under pinion depth: US Army TM 10-3930-671-24, TM 5-3810-306-34, TM 10-3930-660-34, TM 10-3930-653-14&P.
  test('climbs on both flanks as the pinion comes out and sinks as it goes in', () => {
    const [deep, home, out] = [-0.1, 0, 0.1].map((P) => marks(set, P, 0));
    for (const flank of ['convex', 'concave'] as const) {
      expect(out?.[flank].crown).toBeGreaterThan((home?.[flank].crown ?? 0) + 0.05);
      expect(deep?.[flank].crown).toBeLessThan((home?.[flank].crown ?? 0) - 0.05);
    }
  });

  // Convex flank: TM 10-3930-671-24, TM 5-3810-306-34, TM 10-3930-660-34 (the concave one is disputed).
  test('goes to the heel on the convex flank as the ring gear goes away, to the toe as it comes closer', () => {
    const [closer, home, away] = [-0.1, 0, 0.1].map((G) => marks(set, 0, G).convex.heel);
    expect(away).toBeGreaterThan((home ?? 0) + 0.03);
    expect(closer).toBeLessThan((home ?? 0) - 0.03);
  });

  test('grows with the film and loses its sharp edge at the crown as the pinion goes back', () => {
    const [thin, thick] = [marks(set, 0, 0, 0.006), marks(set, 0, 0, 0.015)];
    expect(thick.convex.length).toBeGreaterThan(thin.convex.length);
    expect(thick.convex.height).toBeGreaterThan(thin.convex.height);
    expect(marks(set, 0.2, 0).convex.edges.crown).toBe('hard');
    expect(marks(set, 0, 0, 0.004).convex.edges.crown).toBe('clear');
  });

  test('stays on the flank wherever the gears are put, and is never longer than it', () => {
    const move = fc.double({ min: -0.3, max: 0.3, noNaN: true });
    fc.assert(
      fc.property(move, move, fc.double({ min: 0.005, max: 0.04, noNaN: true }), (P, G, film) => {
        for (const mark of Object.values(marks(set, P, G, film))) {
          expect(Math.abs(mark.heel)).toBeLessThanOrEqual(0.5);
          expect(Math.abs(mark.crown)).toBeLessThanOrEqual(0.5);
          expect(mark.length).toBeGreaterThan(0);
          expect(mark.length).toBeLessThanOrEqual(1);
          expect(mark.height).toBeGreaterThan(0);
          expect(mark.height).toBeLessThanOrEqual(1);
        }
      }),
      { numRuns: 40 },
    );
  });
});

test('the lengthwise answer to pinion depth turns round between the two cuts', () => {
  // Common practice and geometry agree for these sets: out → heel when face-milled, toe when face-hobbed (convex).
  expect(marks(milled, 0.1, 0).convex.heel).toBeGreaterThan(marks(milled, 0, 0).convex.heel + 0.05);
  expect(marks(hobbed, 0.1, 0).convex.heel).toBeLessThan(marks(hobbed, 0, 0).convex.heel);
});

test('a bias slants the mark', () => {
  const slanted = (bias: number) => {
    const set = cutGearSet(
      inventedSet(30, MILLED, { lengthwise: 1.6e-4, bias, profile: 1.2e-3, apex: { heel: 0, crown: 0 } }),
    );
    return marks(set, 0, 0).convex.slant_deg;
  };
  // A positive cross term opens the corners at heel-crown and toe-root: the mark falls towards the heel.
  expect(slanted(2e-4)).toBeLessThan(slanted(-2e-4) - 5);
});

test('an ease-off cut off its place carries the mark with it', () => {
  const off = { lengthwise: 1.6e-4, bias: 0, profile: 1.2e-3, apex: { heel: 0.06, crown: -0.05 } };
  const { convex } = marks(cutGearSet(inventedSet(30, MILLED, off)), 0, 0);
  expect(convex.heel).toBeGreaterThan(0.03);
  expect(convex.crown).toBeLessThan(-0.03);
});

test('a pinion tip that ends early leaves the root of the ring gear clean', () => {
  const set = cutGearSet({ ...inventedSet(30, MILLED), pinionTipEnds: true });
  const whole = marks(milled, 0, 0, 0.02);
  const ended = marks(set, 0, 0, 0.02);
  expect(ended.convex.height).toBeLessThan(whole.convex.height - 0.1);
  expect(ended.convex.edges.root).toBe('hard');
});
