import { describe, expect, it } from 'vitest';
import { none } from '../../../../../src/shared/basics/result.ts';
import { packsBrief, typedText, withDoubt } from '../../../../../src/shared/presentation/words/results.ts';

describe('a typed quantity', () => {
  it.each([
    [0.2, 'mm', 'metric', '0.2 mm'],
    [0.237, 'mm', 'metric', '0.237 mm'],
    [80, 'N.m', 'metric', '80 N·m'],
    [0.00025, '[in_i]', 'inch', '0.00025 in'],
    // A tenth of a millimetre is about four thousandths of an inch.
    [0.2, 'mm', 'inch', '0.008 in'],
  ] as const)('%d %s is shown in %s units as %s: no place added that nobody read', (value, unit, system, words) => {
    expect(typedText({ value, unit }, system)).toBe(words);
  });
});

describe('shims by place', () => {
  it('are told by their packs, in their places’ order, to the digits that were read', () => {
    const pack = (place: 'pinion-depth' | 'ring-side', value: number) => ({
      place,
      each: [],
      pack: { value, unit: 'mm' },
    });
    const shims = { kind: 'shims' as const, packs: [pack('pinion-depth', 1.52), pack('ring-side', 6.1)] };
    expect(packsBrief(shims, 'metric')).toBe('1.52 mm, 6.1 mm');
    expect(packsBrief({ kind: 'shims', packs: [] }, 'metric')).toBeUndefined();
    expect(packsBrief({ kind: 'confirmed', yes: true }, 'metric')).toBeUndefined();
  });
});

describe('a number with its doubt', () => {
  it.each([
    [0.0421, 0.0042, '0.042 mm ± 0.004 mm'],
    [0.0421, undefined, '0.042 mm'],
    [0.0421, none('one-station'), '0.042 mm'],
  ] as const)('%d within %o is %s', (value, U95, words) => {
    expect(withDoubt(value, U95, 'length', 'metric')).toBe(words);
  });

  it('is the reason alone where there is no number', () => {
    expect(withDoubt(none('one-station'), 0.004, 'length', 'metric')).not.toContain('±');
  });
});
