import { describe, expect, it } from 'vitest';
import { draftOf, readDraft } from '../../../../src/renderer/parts/quantity.ts';

describe('a quantity in its field', () => {
  it('takes the unit beside the field when none is typed', () => {
    expect(readDraft({ text: ' 0,21 ', unit: 'mm' }, 'length', 'Gap')).toMatchObject({
      value: { value: 0.21, unit: 'mm' },
    });
  });

  it('takes a typed unit before the one beside it', () => {
    expect(readDraft({ text: '22in-lb', unit: 'N.m' }, 'torque', 'Torque')).toMatchObject({
      value: { value: 22, unit: '[lbf_av].[in_i]' },
    });
  });

  it('reads a power of ten as a number and not as a unit', () => {
    expect(readDraft({ text: '1e-3', unit: 'mm' }, 'length', 'Step')).toMatchObject({
      value: { value: 0.001, unit: 'mm' },
    });
  });

  it.each(['', 'about 3', '3 N·m'])('refuses "%s" and names the field', (text) => {
    const read = readDraft({ text, unit: 'mm' }, 'length', 'Gap');
    expect(read).toMatchObject({ ok: false, problem: { field: 'Gap' } });
  });

  it('says what was typed, and not the unit beside the field', () => {
    const said = (text: string) => {
      const read = readDraft({ text, unit: 'mm' }, 'length', 'pinion depth');
      return read.ok ? undefined : read.problem.sentence;
    };
    expect(said(' ')).toBe('Pinion depth: nothing is typed yet.');
    expect(said('1..5')).toBe('Pinion depth: “1..5” is not a number.');
  });

  it('keeps the digits of a quantity that comes back', () => {
    expect(draftOf({ value: 1.5, unit: 'mm' })).toEqual({ text: '1.5', unit: 'mm' });
  });
});
