import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { showDoubt, showText, sizeText } from '../../../../src/shared/basics/show.ts';

describe('a doubt', () => {
  it('is shown in the unit of its reading: lb-ft beside a fastener, in-lb beside a bearing', () => {
    const torque = { dimension: 'torque', system: 'inch' } as const;
    expect(showText(80, 'torque', 'inch')).toBe('59.0 lb-ft');
    expect(showDoubt(0.57, { ...torque, value: 80 })).toBe('0.4 lb-ft');
    expect(showDoubt(0.04, { ...torque, value: 2.3 })).toBe('0.4 in-lb');
    expect(showDoubt(0.006, { value: 0.2, dimension: 'length', system: 'metric' })).toBe('0.006 mm');
  });

  it('is never nothing where there is any that a gauge could tell', () => {
    // From ten nanometres.
    expect(showDoubt(0.001, { value: 0.2, dimension: 'length', system: 'inch' })).toBe('0.00004 in');
    fc.assert(
      fc.property(fc.double({ min: 1e-5, max: 10, noNaN: true }), fc.constantFrom('metric', 'inch'), (U95, system) => {
        expect(Number.parseFloat(showDoubt(U95, { value: 1, dimension: 'length', system }))).toBeGreaterThan(0);
      }),
    );
  });
});

describe('a size', () => {
  it('is written as a catalogue gives it, whatever unit it was typed in', () => {
    expect(sizeText(8.5 * 25.4, 'inch')).toBe('8.5 in');
    expect(sizeText(8.5 * 25.4, 'metric')).toBe('215.9 mm');
    expect(sizeText(205, 'metric')).toBe('205 mm');
    expect(sizeText(8.875 * 25.4, 'inch')).toBe('8.875 in');
  });
});
