import { describe, expect, it } from 'vitest';
import { blankConfirm, readDetails } from '../../../../../../src/renderer/screens/checks/typed/confirmDraft.ts';

describe('a confirmation with what it says besides', () => {
  it('takes the bolts as described, and refuses a number nobody can have counted', () => {
    expect(readDetails(blankConfirm(10), 'bolts')).toMatchObject({ ok: true, value: { yes: true, counted: 10 } });
    expect(readDetails(blankConfirm(undefined), 'bolts')).toMatchObject({
      ok: false,
      errors: { counted: 'Count them: 4 to 40.' },
    });
    expect(readDetails({ ...blankConfirm(10), counted: '3' }, 'bolts').ok).toBe(false);
  });

  it('wants oil by name and amount, and nothing besides for a no', () => {
    const blank = blankConfirm(undefined);
    expect(readDetails(blank, 'oil')).toMatchObject({ ok: false });
    expect(readDetails({ ...blank, oil: 'on the plate', amount: '1,6' }, 'oil')).toMatchObject({
      ok: true,
      value: { oil: { name: 'on the plate', amount: { value: 1.6, unit: 'L' } } },
    });
    expect(readDetails({ ...blank, yes: false, note: 'leaks' }, 'oil')).toEqual({
      ok: true,
      value: { kind: 'confirmed', yes: false, note: 'leaks' },
    });
  });
});
