import { describe, expect, it } from 'vitest';
import { certificateContent } from '../../../../../src/shared/presentation/certificate/content.ts';
import { certificateBlocks } from '../../../../../src/shared/presentation/certificate/telling.ts';
import { latest } from '../../../../../src/shared/job/records/build.ts';
import type { BacklashResult, How, MeasuredResult } from '../../../../../src/shared/job/records/measurement.ts';
import type { CheckId } from '../../../../../src/shared/job/records/checkIds.ts';
import { readinessOf } from '../../../../../src/shared/job/checks/readiness.ts';
import { settleWords, standingSentence } from '../../../../../src/shared/presentation/words/standing.ts';
import {
  backlash,
  buildOf,
  byHand,
  described,
  limitsSet,
  makeUp,
  measured,
  notebook,
  seen,
  trial,
} from '../../../../support/records/scenario.ts';

type Part = BacklashResult['stations'][number]['parts'][number];

const withParts = (result: BacklashResult, parts: readonly Part[]): BacklashResult => ({
  ...result,
  stations: result.stations.map((station) => ({ ...station, parts: [...parts] })),
});

function sentence(check: CheckId, result: MeasuredResult, how: How = seen): string {
  const build = buildOf(notebook(described, limitsSet, trial, measured('e3', check, result, how)));
  const [assembly] = build.assemblies;
  if (assembly === undefined) throw new Error('no assembly');
  const state = readinessOf({ ...build, makeUp }, assembly).states.find((one) => one.check.id === check);
  if (state === undefined) throw new Error('no such check');
  return standingSentence(state, latest(assembly, check), 'metric');
}

const close = backlash([0.2, 0.21, 0.248, 0.2], 0.006);

describe('what would settle a close call', () => {
  it('is more rocks where the rocks make most of the doubt', () => {
    const parts = [
      { name: 'resolution', u: 0.001 },
      { name: 'rocks', u: 0.003, nu: 3 },
    ];
    expect(sentence('backlash', withParts(close, parts))).toMatch(
      /too close to call .*\. More rocks would settle it\.$/u,
    );
  });

  it('is a finer gauge where the gauge does, and a truer stem where that does', () => {
    const gauge = { name: 'gauge', u: 0.003 };
    expect(sentence('backlash', withParts(close, [gauge]))).toMatch(/ A finer gauge would settle it\.$/u);
    const stem = { name: 'stem angle', u: 0.004 };
    expect(sentence('backlash', withParts(close, [gauge, stem]))).toMatch(/ A stem set truer would settle it\.$/u);
  });

  it('stands beside the chance that the value lies within', () => {
    // Derived: 0.248 and 0.252 lie 0.632 standard uncertainties (√(0.001² + 0.003²)) from 0.250; Φ(0.632) = 0.736.
    const parts = [
      { name: 'resolution', u: 0.001 },
      { name: 'rocks', u: 0.003, nu: 3 },
    ];
    const inside = sentence('backlash', withParts(close, parts));
    expect(inside).toContain('0.248 mm ± 0.006 mm, too close to call against 0.150 mm to 0.250 mm');
    expect(inside).toContain(', 74 in 100 that it lies within. ');
    const outside = sentence('backlash', withParts(backlash([0.2, 0.21, 0.252, 0.2], 0.006), parts));
    expect(outside).toContain('0.002 mm above the window, 26 in 100 that it lies within.');
    expect(sentence('backlash', withParts(backlash([0.2, 0.2, 0.2, 0.2], 0.006), parts))).not.toContain('in 100');
  });

  it('is a finer tool where the number was typed', () => {
    const words = { closeCall: true, settle: 'finer-gauge' } as const;
    expect(settleWords(words, { result: { kind: 'quantity' }, how: byHand })).toBe(' A finer tool would settle it.');
  });

  it('is not said where nothing is close', () => {
    const clear = withParts(backlash([0.2, 0.2, 0.2, 0.21]), [{ name: 'gauge', u: 0.003 }]);
    expect(sentence('backlash', clear)).not.toContain('settle');
  });

  it('is not said where the record has no parts', () => {
    expect(sentence('backlash', withParts(close, []))).not.toContain('settle');
  });

  it('stands on the certificate', () => {
    const result = withParts(close, [{ name: 'rocks', u: 0.003, nu: 3 }]);
    const entries = notebook(described, limitsSet, trial, measured('e3', 'backlash', result));
    const blocks = certificateBlocks(
      certificateContent({ id: 'b1', entries }),
      { page: 'a4', units: 'metric' },
      { sha256: '0'.repeat(64), bench: 'Bench A', fingerprint: '0000', revision: 1 },
    );
    expect(JSON.stringify(blocks)).toContain('More rocks would settle it.');
  });
});
