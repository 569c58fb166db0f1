import { describe, expect, it } from 'vitest';
import { notchOf, sideShimSign } from '../../../../src/shared/axle/makeUp.ts';
import { possible, questionsAbout, unusualNotch } from '../../../../src/shared/axle/makeUpDoubts.ts';
import { makeUp } from '../../../support/records/scenario.ts';

describe('a make-up', () => {
  it('is refused where its parts exclude each other, with the field named', () => {
    const field = (change: object): string | undefined => {
      const found = possible({ ...makeUp, ...change });
      return found.ok ? undefined : found.problem.field;
    };
    expect(field({})).toBeUndefined();
    expect(field({ pinionMount: 'integral', depthShimPlace: 'under-cage' })).toBe('depthShimPlace');
    expect(field({ pinionMount: 'caged', depthShimPlace: 'under-cage' })).toBeUndefined();
    expect(field({ pinionTeeth: 60, ringTeeth: 10 })).toBe('ringTeeth');
    expect(field({ outerDiameter_mm: 200, offset_mm: 90 })).toBe('offset_mm');
    expect(field({ outerDiameter_mm: 200, faceWidth_mm: 90 })).toBe('faceWidth_mm');
  });

  it('is asked about where no axle has such counts or sizes', () => {
    expect(questionsAbout(makeUp)).toEqual([]);
    expect(questionsAbout({ ...makeUp, pinionTeeth: 30, ringTeeth: 41 }).join(' ')).toMatch(
      /30 teeth are unusual.*1\.37 to 1/u,
    );
    expect(questionsAbout({ ...makeUp, outerDiameter_mm: 8.5 }).join(' ')).toContain('check the diameter and its unit');
    const caged = { ...makeUp, pinionMount: 'caged', depthShimPlace: 'under-head-bearing' } as const;
    expect(questionsAbout(caged).join(' ')).toContain('usually has its depth shim under the cage');
  });

  it('knows a notch by calibration before thread, and nothing else', () => {
    expect(notchOf({ ...makeUp, threadPitch_mm: 1.5, notchesPerTurn: 30 })).toBe(makeUp.ringStep_mm ?? 0.05);
    const { ringStep_mm: _, ...bare } = makeUp;
    expect(notchOf({ ...bare, threadPitch_mm: 1.5, notchesPerTurn: 30 })).toBeCloseTo(0.05, 9);
    expect(notchOf({ ...bare, threadPitch_mm: 1.5 })).toBeUndefined();
    expect([unusualNotch(0.1), unusualNotch(0.4), unusualNotch(0.005)]).toEqual([false, true, true]);
  });

  it('lets its case out with a thicker shim only under a flange', () => {
    expect(sideShimSign({ caseAdjustment: 'outboard-shims' })).toBe(1);
    expect(sideShimSign({ caseAdjustment: 'inboard-shims' })).toBe(1);
    expect(sideShimSign({ caseAdjustment: 'flange-shims' })).toBe(-1);
  });
});
