import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareTogether, type TogetherInput } from '../../../../src/shared/measuring/together.ts';
import { mm, radians } from '../../../../src/shared/basics/quantity.ts';
import { none } from '../../../../src/shared/basics/result.ts';

const ratio = { perMm: 0.8, u: 0.02 };
/** Runout of a place on the gear, one lobe and two. */
const surface = (place: number) => 0.03 * Math.cos(place - 1) + 0.008 * Math.cos(2 * (place - 0.4));

/** A gear whose backlash follows its runout, measured with the indicator `apart` further on than the mesh. */
function fitting(stations: number, apart: number, extra: (place: number) => number = () => 0): TogetherInput {
  return {
    backlash: Array.from({ length: stations }, (_, i) => {
      const gearAngle = radians((2 * Math.PI * i) / stations);
      return { gearAngle, backlash: mm(0.2 + ratio.perMm * surface(gearAngle) + extra(gearAngle)), u: 0.003 };
    }),
    // Read against the tooth in mesh: the place under the indicator is `apart` further on.
    runout: [
      { order: 1, amplitude: mm(0.03), highSpot: radians(1 - apart), u: 0.001 },
      { order: 2, amplitude: mm(0.008), highSpot: radians(0.4 - apart), u: 0.001 },
    ],
    indicatorFromMesh: radians(apart),
    ratio,
  };
}

describe('does it fit together', () => {
  it('explains a backlash that follows the runout, wherever the indicator stood', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 6.2, noNaN: true }), fc.integer({ min: 5, max: 16 }), (apart, stations) => {
        const found = compareTogether(fitting(stations, apart));
        expect(found.answer).toBe('explained');
        expect(found.orders.map(({ order }) => order)).toEqual([1, 2]);
        for (const { left } of found.orders) expect(left.amplitude).toBeLessThan(1e-9);
        expect(found.expectedAt?.(radians(2))).toBeCloseTo(0.2 + ratio.perMm * surface(2), 9);
      }),
    );
  });

  it('does not explain it when the angle between them is taken wrongly', () => {
    expect(compareTogether({ ...fitting(8, 1.2), indicatorFromMesh: radians(1.2 + Math.PI) }).answer).toBe(
      'not-explained',
    );
  });

  it('does not explain what the gear or the stand added', () => {
    expect(compareTogether(fitting(8, 1, (place) => 0.02 * Math.cos(place + 2))).answer).toBe('not-explained');
    const knocked = compareTogether(fitting(8, 1, (place) => (Math.abs(place - Math.PI / 2) < 0.01 ? 0.05 : 0)));
    expect(knocked.answer).toBe('not-explained');
  });

  it('has nothing to explain on a gear that runs true', () => {
    const input = fitting(8, 1);
    const flat = input.backlash.map((point) => ({ ...point, backlash: mm(0.2) }));
    const none = input.runout.map((harmonic) => ({ ...harmonic, amplitude: mm(0) }));
    expect(compareTogether({ ...input, backlash: flat, runout: none }).answer).toBe('nothing-to-explain');
  });

  it('cannot tell without the angle between them, or with too few stations', () => {
    const found = compareTogether({ ...fitting(8, 1), indicatorFromMesh: none('not-noted') });
    expect(found).toMatchObject({ answer: 'cannot-tell', reason: 'no-angle', orders: [] });
    expect(compareTogether(fitting(2, 1))).toMatchObject({ answer: 'cannot-tell', reason: 'too-few-stations' });
  });

  it('compares one lobe only where four stations cannot see two', () => {
    const one = { ...fitting(4, 0.5), runout: fitting(4, 0.5).runout.slice(0, 1) };
    expect(compareTogether(fitting(4, 0.5)).orders.map(({ order }) => order)).toEqual([1]);
    expect(compareTogether(one).orders).toHaveLength(1);
  });
});
