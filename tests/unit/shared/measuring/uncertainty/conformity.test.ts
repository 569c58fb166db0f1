import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { conformanceProbability, normalTail } from '../../../../../src/shared/measuring/uncertainty/conformity.ts';

describe('normal tail', () => {
  it('meets itself where the series hands over to the fraction', () => {
    expect(normalTail(3 - 1e-12) / normalTail(3 + 1e-12)).toBeCloseTo(1, 9);
  });

  it('keeps its digits far out', () => {
    // Derived at 50 digits: Q(6) = 9.865876450376981e-10.
    expect(normalTail(6) / 9.865876450376981e-10).toBeCloseTo(1, 12);
  });

  it('falls, and mirrors about the middle', () => {
    const z = fc.double({ min: -8, max: 8, noNaN: true });
    fc.assert(
      fc.property(z, z, (one, other) => {
        expect(normalTail(one) + normalTail(-one)).toBeCloseTo(1, 14);
        if (one < other) expect(normalTail(one)).toBeGreaterThanOrEqual(normalTail(other));
      }),
    );
  });
});

describe('conformance', () => {
  it('is shared out completely between below, within and above', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: 0.01, max: 2, noNaN: true }),
        (value, u) => {
          const within = conformanceProbability(value, u, { min: -1, max: 1 });
          const below = conformanceProbability(value, u, { max: -1 });
          const above = conformanceProbability(value, u, { min: 1 });
          expect(below + within + above).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  it('is certain without doubt, the limits included', () => {
    expect(conformanceProbability(0.2, 0, { max: 0.2 })).toBe(1);
    expect(conformanceProbability(0.21, 0, { max: 0.2 })).toBe(0);
  });
});
