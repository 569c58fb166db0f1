import { describe, expect, it } from 'vitest';
import type { BacklashBasis } from '../../../../../src/shared/basics/recorded.ts';
import type { Limit } from '../../../../../src/shared/job/records/specSheet.ts';
import { type ConvertedLimit, convertedLimit } from '../../../../../src/shared/job/gear/convertedLimit.ts';
import { convertedWords } from '../../../../../src/shared/presentation/words/converted.ts';
import { makeUp } from '../../../../support/records/scenario.ts';

const along: BacklashBasis = { direction: 'along-rotation', at: 'heel' };
const square: BacklashBasis = { direction: 'square-to-tooth', at: 'heel' };
const at = (radius_mm: number): BacklashBasis => ({ direction: 'along-rotation', at: { radius_mm } });
const limit = (basis: BacklashBasis): Limit => ({
  quantity: 'backlash',
  basis,
  min: { value: 0.15, unit: 'mm' },
  max: { value: 0.25, unit: 'mm' },
  source: 'invented',
});
const { outerDiameter_mm: _, ...unsized } = makeUp;

function told(one: Limit, to: BacklashBasis, axle = makeUp): ConvertedLimit {
  const converted = convertedLimit(one, to, axle);
  if (converted === undefined) throw new Error('not converted');
  return converted;
}

describe('a limit of another basis', () => {
  it('is larger along the turn than square to the tooth', () => {
    const { max_mm = 0, share } = told(limit(square), along);
    // At one radius transverse over normal is 1.30 at 20°/35° and 1.41 at 22.5°/40° (derived); the heel lies between.
    expect(max_mm / 0.25).toBeGreaterThan(1.3);
    expect(max_mm / 0.25).toBeLessThan(1.45);
    expect(share).toBeGreaterThan(0);
  });

  it('goes with the radius, exactly, where only the place differs', () => {
    const { min_mm, max_mm, share } = told(limit(along), at(82));
    expect(min_mm).toBeCloseTo(0.12, 9);
    expect(max_mm).toBeCloseTo(0.2, 9);
    expect(share).toBe(0);
  });

  it('comes back the way it went', () => {
    const there = told(limit(square), along);
    const typed = { ...limit(along), max: { value: there.max_mm ?? 0, unit: 'mm' } };
    expect(told(typed, square).max_mm).toBeCloseTo(0.25, 9);
  });

  it('is not converted where it needs no conversion, or the size for it', () => {
    expect(convertedLimit(limit(along), along, makeUp)).toBeUndefined();
    expect(convertedLimit(limit(along), at(82), unsized)).toBeUndefined();
    expect(told(limit(square), along, unsized).max_mm).toBeGreaterThan(0.25);
    const runout: Limit = { quantity: 'ring-gear-runout', max: { value: 0.1, unit: 'mm' }, source: 'invented' };
    expect(convertedLimit(runout, along, makeUp)).toBeUndefined();
  });

  it('says that it is a conversion and does not judge', () => {
    expect(convertedWords(told(limit(along), at(82)), at(82), 'metric')).toBe(
      'The limit is 0.150 mm to 0.250 mm along the turn at the heel. Converted, that is 0.120 mm to 0.200 mm along the turn at 82 mm radius. A conversion shows the way and does not judge.',
    );
    expect(convertedWords(told(limit(square), along), along, 'metric')).toContain('give or take');
  });
});
