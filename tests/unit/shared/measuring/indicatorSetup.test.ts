import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  convertBacklash,
  type FeltBasis,
  misreading,
  squared,
  stemParts,
} from '../../../../src/shared/measuring/indicatorSetup.ts';
import { degrees, mm, radians } from '../../../../src/shared/basics/quantity.ts';

const tooth = {
  heelRadius: mm(100),
  pressureAngle: degrees(20),
  spiralAt: (radius: number) => radians(degrees(35) + (radius - 85) * 0.005),
};
const basis = fc.record<FeltBasis>({
  direction: fc.constantFrom('along-rotation', 'square-to-tooth'),
  at: fc.oneof(
    fc.constant('heel' as const),
    fc.double({ min: 60, max: 110, noNaN: true }).map((radius_mm) => ({ radius_mm })),
  ),
});

describe('bases of backlash', () => {
  it('convert there and back, and by any way round', () => {
    const value = fc.double({ min: 0.01, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(value, basis, basis, basis, (read, a, b, c) => {
        const there = convertBacklash(mm(read), a, b, tooth);
        expect(convertBacklash(there, b, a, tooth)).toBeCloseTo(read, 12);
        expect(convertBacklash(there, b, c, tooth)).toBeCloseTo(convertBacklash(mm(read), a, c, tooth), 12);
      }),
    );
  });

  it('read smaller square to the tooth, and smaller further in', () => {
    const along: FeltBasis = { direction: 'along-rotation', at: 'heel' };
    const further: FeltBasis = { direction: 'along-rotation', at: { radius_mm: 70 } };
    expect(convertBacklash(mm(0.2), along, { direction: 'square-to-tooth', at: 'heel' }, tooth)).toBeLessThan(0.2);
    expect(convertBacklash(mm(0.2), along, further, tooth)).toBeCloseTo(0.14, 12);
  });
});

describe('the slant of the stem', () => {
  const angles = fc.double({ min: 0.01, max: 1, noNaN: true });

  it('reads high when the tip rides the flank and low when it follows a point', () => {
    fc.assert(
      fc.property(angles, (angle) => {
        const riding = { tip: 'rides-flank' as const, angle: radians(angle) };
        const following = { tip: 'follows-point' as const, angle: radians(angle) };
        expect(squared(mm(0.2), riding)).toBeLessThan(0.2);
        expect(squared(mm(0.2), following)).toBeGreaterThan(0.2);
        expect(misreading(riding)).toBeGreaterThan(0);
        expect(misreading(following)).toBeLessThan(0);
        for (const stem of [riding, following]) {
          expect(squared(mm(0.2 * (1 + misreading(stem))), stem)).toBeCloseTo(0.2, 12);
        }
      }),
    );
  });

  it('leaves doubt even when the stem is thought square', () => {
    const stem = {
      tip: 'rides-flank' as const,
      angle: radians(0),
      angleU: degrees(5),
      radius: mm(100),
      radiusU: mm(1),
    };
    const parts = stemParts(mm(0.2), stem);
    expect(parts).toEqual([
      { name: 'stem angle', u: expect.closeTo((0.2 * degrees(5) ** 2) / Math.SQRT2, 9) as number },
      { name: 'stem radius', u: expect.closeTo(0.002, 12) as number },
    ]);
    expect(stemParts(mm(0.2), { tip: 'rides-flank', angle: degrees(10) })).toEqual([]);
  });
});
