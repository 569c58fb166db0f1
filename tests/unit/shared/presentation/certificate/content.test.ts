import { describe, expect, it } from 'vitest';
import { certificateContent } from '../../../../../src/shared/presentation/certificate/content.ts';
import type { How } from '../../../../../src/shared/job/records/measurement.ts';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import { backlash, described, limitsSet, measured, notebook, trial } from '../../../../support/records/scenario.ts';

const content = (...deeds: readonly Deed[]) => certificateContent({ id: 'b1', entries: notebook(...deeds) });

describe('what a certificate says', () => {
  it('is incomplete while anything required is missing, and says what', () => {
    const { complete, missing } = content();
    expect(complete).toBe(false);
    expect(missing).toEqual([
      'The axle has not been described.',
      'No limits have been entered.',
      'Nothing was recorded before the axle was taken apart.',
      'Nothing was recorded as the axle came apart.',
      'There was no trial assembly.',
      'There is no final assembly.',
    ]);
  });

  it('names each required reading that was not taken or lies outside', () => {
    const { missing } = content(
      described,
      limitsSet,
      trial,
      measured('e3', 'backlash', backlash([0.3, 0.3, 0.3, 0.3])),
    );
    expect(missing).toContain('Trial 1: backlash – outside its limits.');
    expect(missing).toContain('Trial 1: case flange runout – not measured.');
  });

  it('keeps an overridden reading visible, with its reason', () => {
    const override: Deed = {
      kind: 'overridden',
      assembly: 'e3',
      check: 'backlash',
      reason: 'agreed with the customer',
    };
    const { missing, assemblies } = content(
      described,
      limitsSet,
      trial,
      measured('e3', 'backlash', backlash([0.3, 0.3, 0.3, 0.3])),
      override,
    );
    expect(missing.join(' ')).not.toContain('backlash');
    expect(assemblies[0]?.checks.find(({ check }) => check === 'backlash')).toMatchObject({
      standing: 'outside',
      override: { reason: 'agreed with the customer' },
    });
  });

  it('is the same whenever it is drawn, and whether or not it was issued before', () => {
    const deeds = [described, limitsSet, trial];
    const issued: Deed = { kind: 'certified', sha256: '0'.repeat(64), complete: false };
    expect(content(...deeds, issued)).toEqual(content(...deeds));
  });

  it('counts the measurement that stands and says how many came before', () => {
    const twice = content(
      described,
      limitsSet,
      trial,
      measured('e3', 'backlash', backlash([0.3])),
      measured('e3', 'backlash', backlash([0.2])),
    );
    expect(twice.assemblies[0]?.checks.find(({ check }) => check === 'backlash')).toMatchObject({
      earlier: 1,
      measurement: { id: 'e5' },
    });
  });

  it('lists each gauge once, with its calibration on the day it was used', () => {
    const gauge = {
      id: 'g1',
      label: 'Indicator',
      kind: 'indicator',
      resolution: { value: 0.001, unit: 'mm' },
      dueOn: '2025-12-31',
    } as const;
    const typed: How = { kind: 'typed', tool: 'micrometer', resolution: { value: 0.01, unit: 'mm' }, gauge };
    const play: Deed = measured('e3', 'case-end-play', { kind: 'quantity', value: { value: 0, unit: 'mm' } }, typed);
    expect(content(described, limitsSet, trial, play, play).gauges).toEqual([
      { gauge, typed: true, calibration: 'past' },
    ]);
  });

  it('never says safe, correct or quiet', () => {
    const text = JSON.stringify(content(described, limitsSet, trial));
    expect(text).not.toMatch(/\b(?:safe|safely|correct|quiet|guarantee)/iu);
  });
});
