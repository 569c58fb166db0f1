import { describe, expect, it } from 'vitest';
import {
  blankLimit,
  isBlank,
  type LimitDraft,
  limitDraftOf,
  readLimit,
} from '../../../../../../src/renderer/screens/job/limits/draft.ts';
import { torqueBasisOptions } from '../../../../../../src/renderer/screens/job/limits/basis.ts';
import { quantitiesAsked, readSheet, rowsOf } from '../../../../../../src/renderer/screens/job/limits/sheet.ts';
import {
  limitedQuantities,
  type LimitedQuantity,
  limitSchema,
} from '../../../../../../src/shared/job/records/specSheet.ts';
import { roundAxle, roundLimits } from '../../../../../support/roundAxle.ts';

const backlash: LimitDraft = {
  ...blankLimit('backlash', 'backlash-0', 'metric'),
  min: '0.20',
  max: '0,30',
  basis: 'along-rotation heel',
  source: 'Manual, table 4',
};

describe('one limit as it is typed', () => {
  it('becomes a limit with unit, basis and source', () => {
    expect(readLimit(backlash)).toEqual({
      ok: true,
      value: {
        quantity: 'backlash',
        basis: { direction: 'along-rotation', at: 'heel' },
        min: { value: 0.2, unit: 'mm' },
        max: { value: 0.3, unit: 'mm' },
        source: 'Manual, table 4',
      },
    });
  });

  it('takes the unit typed with the digits before the one beside the field', () => {
    const read = readLimit({ ...backlash, min: '.008 in', max: '' });
    expect(read).toMatchObject({ value: { min: { value: 0.008, unit: '[in_i]' } } });
  });

  it.each([
    ['min above max', { min: '0.4' }, 'min'],
    ['no number', { max: 'wide' }, 'max'],
    ['a unit of something else', { max: '3 N.m' }, 'max'],
    ['no basis', { basis: '' }, 'basis'],
    ['a radius without its size', { basis: 'along-rotation radius' }, 'radius'],
    ['no source', { source: '  ' }, 'source'],
  ] as const)('refuses %s at its own field', (_, change, field) => {
    const read = readLimit({ ...backlash, ...change });
    expect(read.ok ? [] : Object.keys(read.errors)).toEqual([field]);
  });

  it('offers every torque basis once', () => {
    expect(torqueBasisOptions).toHaveLength(12);
    expect(new Set(torqueBasisOptions.map(({ value }) => value)).size).toBe(12);
  });

  it('comes back the same from every kind of limit', () => {
    const bases: Partial<Record<LimitedQuantity, object>> = {
      backlash: { basis: { direction: 'square-to-tooth', at: { radius_mm: 97.5 } } },
      'backlash-variation': { basis: { direction: 'along-rotation', at: 'heel' } },
      'pinion-torque': { basis: { basis: 'starting', seal: 'in', bearings: 'used' } },
      'total-torque': { basis: { basis: 'running', seal: 'in', bearings: 'new' } },
    };
    for (const [quantity, dimension] of Object.entries(limitedQuantities)) {
      const unit = dimension === 'length' ? 'mm' : '[lbf_av].[in_i]';
      const limit = limitSchema.parse({
        quantity,
        ...bases[quantity as LimitedQuantity],
        min: { value: 0.125, unit },
        max: { value: 0.25, unit },
        source: 'page 12',
      });
      expect(readLimit(limitDraftOf(limit, 'row'))).toEqual({ ok: true, value: limit });
    }
  });
});

describe('a spec sheet as it is typed', () => {
  it('asks only for what this axle is asked for', () => {
    const asked = quantitiesAsked(roundAxle.makeUp);
    expect(asked).toContain('backlash');
    expect(asked).toContain('pinion-nut-torque');
    expect(quantitiesAsked(undefined)).toHaveLength(Object.keys(limitedQuantities).length);
  });

  it('comes back the same, with an empty row for every quantity that has no limit', () => {
    const { specSheet } = roundLimits;
    const rows = rowsOf(specSheet, roundAxle.makeUp, 'metric');
    const note = 'Second edition of the manual';
    const read = readSheet({ name: specSheet.name, rule: specSheet.rule, note, rows });
    expect(read.ok ? read.value : read.errors).toEqual({ ...specSheet, note });
    expect(rows.filter(isBlank).map(({ quantity }) => quantity)).toContain('case-preload');
  });

  it('says which line is wrong and leaves nothing out silently', () => {
    const read = readSheet({ name: ' ', rule: 'simple', note: undefined, rows: [{ ...backlash, source: '' }] });
    expect(read).toEqual({
      ok: false,
      errors: {
        name: 'Give the sheet a name.',
        rows: { 'backlash-0': { source: 'Say where this limit comes from.' } },
      },
    });
  });
});
