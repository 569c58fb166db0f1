import { describe, expect, it } from 'vitest';
import { currentAssembly, latest } from '../../../../../src/shared/job/records/build.ts';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import type { Limit } from '../../../../../src/shared/job/records/specSheet.ts';
import { changesRead, limitsChanged, sheetFor } from '../../../../../src/shared/job/checks/limitChanges.ts';
import { isDescribed, readinessOf } from '../../../../../src/shared/job/checks/readiness.ts';
import { certificateContent } from '../../../../../src/shared/presentation/certificate/content.ts';
import { certificateBlocks } from '../../../../../src/shared/presentation/certificate/telling.ts';
import {
  backlash,
  backlashBasis,
  buildOf,
  described,
  limitsSet,
  measured,
  notebook,
  specSheet,
  trial,
} from '../../../../support/records/scenario.ts';

const window = (min: number, max: number): Limit => ({
  quantity: 'backlash',
  basis: backlashBasis,
  min: { value: min, unit: 'mm' },
  max: { value: max, unit: 'mm' },
  source: 'shop sheet for the invented axle',
});

type Change = Extract<Deed, { kind: 'limits-set' }>['change'];
const others = specSheet.limits.filter(({ quantity }) => quantity !== 'backlash');
const sheet = (limits: readonly Limit[], change?: Change): Deed => ({
  kind: 'limits-set',
  specSheet: { ...specSheet, limits: [...limits, ...others] },
  ...(change === undefined ? {} : { change }),
});
const correction = { why: 'Read off the wrong column', holds: 'from-the-start' } as const;
const fromNow = { why: 'Customer asks for a quieter set', holds: 'from-now-on' } as const;

/** 0.30 everywhere: above the window of 0.15 to 0.25. */
const wide = measured('e3', 'backlash', backlash([0.3, 0.3, 0.3, 0.3]));
const base = [described, limitsSet, trial, wide];

function standingOf(deeds: readonly Deed[], assembly = 'e3'): string | undefined {
  const build = buildOf(notebook(...deeds));
  const on = build.assemblies.find(({ id }) => id === assembly);
  if (!isDescribed(build) || on === undefined) throw new Error('not a trial of a described axle');
  return readinessOf(build, on).states.find(({ check }) => check.id === 'backlash')?.standing;
}

describe('a limit that changes after a reading', () => {
  it('leaves the reading its verdict when it holds from now on, and judges the next one', () => {
    const deeds = [...base, sheet([window(0.25, 0.35)], fromNow)];
    expect(standingOf(base)).toBe('outside');
    expect(standingOf(deeds)).toBe('outside');
    const again = [...deeds, trial, measured('e6', 'backlash', backlash([0.3, 0.3, 0.3, 0.3]))];
    expect(standingOf(again, 'e6')).toBe('within');
    expect(standingOf(again, 'e3')).toBe('outside');
  });

  it('judges the reading anew when it was entered wrongly', () => {
    expect(standingOf([...base, sheet([window(0.25, 0.35)], correction)])).toBe('within');
  });

  it('keeps the first limit through a later change of something else', () => {
    const later = sheet([
      window(0.25, 0.35),
      { quantity: 'case-end-play', max: { value: 0, unit: 'mm' }, source: 'x' },
    ]);
    expect(standingOf([...base, sheet([window(0.25, 0.35)], fromNow), later])).toBe('outside');
  });

  it('reads notebooks of before it was asked as they were read then: by the last sheet', () => {
    expect(standingOf([...base, sheet([window(0.25, 0.35)])])).toBe('within');
  });

  it('holds a reading against a line that was entered only afterwards', () => {
    const without: Deed = { kind: 'limits-set', specSheet: { ...specSheet, limits: others } };
    const deeds = [described, without, trial, wide];
    // The variation alone is held against something: it is nought.
    expect(standingOf(deeds)).toBe('within');
    expect(standingOf([...deeds, sheet([window(0.15, 0.25)])])).toBe('outside');
  });

  it('takes a line out only for what is read from then on', () => {
    const deeds = [...base, { ...sheet([], fromNow) }];
    expect(standingOf(deeds)).toBe('outside');
    expect(standingOf([...base, sheet([], correction)])).toBe('within');
  });

  it('keeps the rule a reading was judged by', () => {
    const guarded: Deed = { kind: 'limits-set', specSheet: { ...specSheet, rule: 'guarded' }, change: fromNow };
    const build = buildOf(notebook(...base, guarded));
    const assembly = currentAssembly(build);
    const reading = assembly === undefined ? undefined : latest(assembly, 'backlash');
    expect(build.specSheet?.rule).toBe('guarded');
    expect(reading === undefined ? undefined : sheetFor(build, reading)?.rule).toBe('simple');
  });
});

describe('what a new sheet would touch', () => {
  const touched = (next: Deed) =>
    next.kind === 'limits-set' ? changesRead(buildOf(notebook(...base)), next.specSheet) : undefined;

  it('names the readings that were held against a changed line', () => {
    const changed = touched(sheet([window(0.25, 0.35)]));
    expect(changed?.lines).toMatchObject([{ from: window(0.15, 0.25), to: window(0.25, 0.35) }]);
    expect(changed?.readings.map(({ assembly, check }) => [assembly.number, check.id])).toEqual([[1, 'backlash']]);
    expect(touched(sheet([]))?.lines).toEqual([{ from: window(0.15, 0.25) }]);
  });

  it('is silent about lines nothing was held against, new lines, and another source or unit of the same limit', () => {
    const runout = { quantity: 'ring-gear-runout', max: { value: 0.07, unit: 'mm' }, source: 'x' } as const;
    const limits = specSheet.limits.map((limit) => (limit.quantity === 'ring-gear-runout' ? runout : limit));
    const plain: Deed = { kind: 'limits-set', specSheet: { ...specSheet, limits } };
    expect(touched(plain)?.readings).toEqual([]);
    const otherwise = specSheet.limits.map((limit) => ({ ...limit, source: 'Other manual' }));
    expect(touched({ kind: 'limits-set', specSheet: { ...specSheet, limits: otherwise } })?.readings).toEqual([]);
  });

  it('touches everything judged when the rule changes', () => {
    expect(touched({ kind: 'limits-set', specSheet: { ...specSheet, rule: 'guarded' } })?.readings).toHaveLength(1);
  });
});

describe('the certificate of a build whose limits changed', () => {
  const textOf = (deeds: readonly Deed[]): string => {
    const content = certificateContent({ id: 'b1', entries: notebook(...deeds) });
    return JSON.stringify(
      certificateBlocks(
        content,
        { units: 'metric', page: 'a4' },
        { sha256: '0'.repeat(64), bench: 'Bench A', fingerprint: '0000', revision: 1 },
      ),
    );
  };

  it('says when, by whom, what, why, and what became of the readings', () => {
    const deeds = [...base, sheet([window(0.25, 0.35)], fromNow)];
    expect(limitsChanged(buildOf(notebook(...deeds)))).toMatchObject([
      { why: fromNow.why, holds: 'from-now-on', readings: ['Trial 1, backlash'] },
    ]);
    const text = textOf(deeds);
    expect(text).toContain('Limits changed after readings');
    expect(text).toContain('backlash (along the turn at the heel) 0.250 mm to 0.350 mm, was 0.150 mm to 0.250 mm');
    expect(text).toContain('keeps its limit (Trial 1, backlash)');
    expect(text).toContain(`Reason given: ${fromNow.why}`);
    expect(textOf([...base, sheet([window(0.25, 0.35)], correction)])).toContain('is held against the new limit');
  });

  it('says nothing of it where nothing had been held against it', () => {
    expect(textOf([described, limitsSet, sheet([window(0.2, 0.3)]), trial, wide])).not.toContain('Limits changed');
  });
});
