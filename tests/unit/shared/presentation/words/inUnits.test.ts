import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inUnits } from '../../../../../src/shared/presentation/words/inUnits.ts';

describe('a sentence of the plan in inches', () => {
  it('turns every length round, ranges too, and nothing else', () => {
    expect(inUnits('The pinion comes out by 0.20 mm: backlash 0.15 to 0.25 mm, read at 0.129 mm.', 'inch')).toBe(
      'The pinion comes out by 0.0079 in: backlash 0.0059 to 0.0098 in, read at 0.0051 in.',
    );
    const heights = 'Height +0.15 within 0.08, on 85 of 100, 13/45 teeth.';
    expect(inUnits(heights, 'inch')).toBe(heights);
    expect(inUnits('Backlash of 0.20 mm.', 'metric')).toBe('Backlash of 0.20 mm.');
  });

  it('leaves no millimetre behind and stays within half a ten-thousandth', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2000 }), (microns) => {
        const said = inUnits(`It moves ${(microns / 1000).toFixed(3)} mm.`, 'inch');
        expect(said).not.toContain('mm');
        const inches = Number(/[\d.]+(?= in)/u.exec(said)?.[0]);
        expect(Math.abs(inches * 25.4 - microns / 1000)).toBeLessThanOrEqual(0.00127 + 1e-9);
      }),
    );
  });
});
