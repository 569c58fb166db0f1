import { describe, expect, it } from 'vitest';
import { checkSetInput, type SetInput } from '../../../../../src/shared/axle/mesh/input.ts';
import { describeSet, ignoredOffset } from '../../../../../src/shared/axle/mesh/meshModel.ts';
import { predictSet, type PredictAnswer } from '../../../../../src/shared/axle/mesh/predict.ts';
import { sets } from './sets.ts';

const least = { pinionTeeth: 12, ringTeeth: 43, outerDiameter_mm: 210 } as const;

function answer(input: SetInput): PredictAnswer {
  const found = predictSet(input);
  if (!found.ok) throw new Error(found.problem.sentence);
  return found.value;
}

describe('predict', () => {
  it('answers with the keys of the contract and no others', () => {
    const found = answer(least);
    expect(Object.keys(found).toSorted()).toEqual(
      ['assumed', 'backlash', 'faceWidth_mm', 'flankHeight_mm', 'pattern', 'pitchAngle_deg', 'spiral_deg'].toSorted(),
    );
    for (const rate of [found.backlash.perPinionOut, found.backlash.perRingAway]) {
      expect(Object.keys(rate)).toEqual(['transverseMean', 'transverseHeel', 'normalMean', 'normalHeel']);
      expect(Object.keys(rate.normalHeel)).toEqual(['convex', 'concave']);
    }
    for (const flank of [found.pattern.convex, found.pattern.concave]) {
      expect(Object.keys(flank)).toEqual(['perPinionOut', 'perRingAway']);
      expect(Object.keys(flank.perPinionOut)).toEqual(['heel_mm', 'crown_mm', 'trust']);
    }
  });

  it('lists every default it used, the offset first', () => {
    expect(answer(least).assumed).toEqual([
      'offset_mm',
      'cut',
      'faceWidth_mm',
      'pinionSpiral_deg',
      'pressureAngle_deg',
      'cutterRadius_mm',
      'rootTilt_deg',
      'flankHeight_mm',
      'easeoff',
    ]);
    const easeoff = { a: 1.6e-4, b: 2e-5, c: 1e-3 };
    const whole = {
      ...sets.example_hypoid_12_43,
      pressureAngle_deg: 20,
      cut: 'face-hobbed',
      cutterRadius_mm: 84,
      bladeGroups: 17,
      rootTilt_deg: 0,
      flankHeight_mm: 7.5,
      easeoff: { convex: easeoff, concave: easeoff },
    } as const;
    expect(answer(whole).assumed).toEqual([]);
    expect(answer(whole).flankHeight_mm).toBe(7.5);
  });

  it('trusts height under pinion movement, and withholds lengthwise advice while the cut is not known', () => {
    const unknown = answer({ ...least, cut: 'not-known' });
    expect(unknown.assumed).toContain('cut');
    for (const flank of Object.values(unknown.pattern)) {
      expect(flank.perPinionOut.trust).toEqual({ heel: 'unknown', crown: 'good' });
      expect(flank.perRingAway.trust.heel).toBe('unknown');
    }
    const known = answer({ ...least, cut: 'face-milled' });
    expect(known.assumed).not.toContain('cut');
    expect(known.pattern.convex.perRingAway.trust).toEqual({ heel: 'good', crown: 'weak' });
    expect(known.pattern.concave.perRingAway.trust).toEqual({ heel: 'weak', crown: 'weak' });
  });

  it('moves marks in proportion to how flat the ease-off is, height towards the crown for both movements', () => {
    const withCurvature = (factor: number) => {
      const easeoff = { a: 2e-4 * factor, b: 0, c: 2e-3 * factor };
      return answer({
        ...sets.example_hypoid_12_43,
        cut: 'face-milled',
        easeoff: { convex: easeoff, concave: easeoff },
      });
    };
    const [flat, half, steep] = [1, 2, 4].map((factor) => withCurvature(factor).pattern.concave);
    if (!flat || !half || !steep) throw new Error('three answers were asked for');
    // What the relief itself travels does not depend on how steep it is, so differences are compared.
    const crown = ({ perPinionOut }: typeof flat) => perPinionOut.crown_mm;
    expect((crown(flat) - crown(half)) / (crown(half) - crown(steep))).toBeCloseTo(2, 9);
    expect(flat.perPinionOut.crown_mm).toBeGreaterThan(0);
    expect(flat.perRingAway.crown_mm).toBeGreaterThan(0);
  });

  it('says when an offset had to be taken as 0, since no hypoid cones fit it', () => {
    const tiny = answer({ ...least, offset_mm: 0.1, pinionSpiral_deg: 35 });
    expect(tiny.assumed).toContain(ignoredOffset);
    expect(tiny.pitchAngle_deg.pinion).toBeCloseTo(answer(least).pitchAngle_deg.pinion, 9);
  });

  it('gives one Problem, not numbers, for a set that cannot mesh', () => {
    const found = describeSet({ ...least, cut: 'face-hobbed', cutterRadius_mm: 15, bladeGroups: 17 });
    expect(found).toMatchObject({ ok: false, problem: { field: 'cutterRadius_mm' } });
  });
});

describe('a set that comes over a boundary', () => {
  const fieldOf = (raw: unknown): string | undefined => {
    const found = checkSetInput(raw);
    return found.ok ? undefined : found.problem.field;
  };

  it('passes with the three things everyone can read', () => {
    expect(checkSetInput(least)).toEqual({ ok: true, value: least });
  });

  it('is refused with the wrong field named', () => {
    expect(fieldOf({ ...least, pinionTeeth: 'twelve' })).toBe('pinionTeeth');
    expect(fieldOf({ ...least, ringTeeth: 12.5 })).toBe('ringTeeth');
    expect(fieldOf({ pinionTeeth: 12, ringTeeth: 43 })).toBe('outerDiameter_mm');
    expect(fieldOf({ ...least, offset: 30 })).toBe('offset');
    expect(fieldOf({ ...least, cut: 'milled' })).toBe('cut');
    expect(fieldOf({ ...least, faceWidth_mm: 100 })).toBe('faceWidth_mm');
    expect(fieldOf({ ...least, pinionTeeth: 40, ringTeeth: 30 })).toBe('ringTeeth');
    expect(fieldOf({ ...least, cut: 'face-hobbed', rootTilt_deg: 4 })).toBe('rootTilt_deg');
    expect(fieldOf({ ...least, outerDiameter_mm: Number.NaN })).toBe('outerDiameter_mm');
    expect(fieldOf('a gear')).toBe('set');
    const flat = { a: 1e-4, b: 0, c: 1e-3 };
    expect(fieldOf({ ...least, easeoff: { convex: flat, concave: { a: 1e-4, b: 1, c: 1e-3 } } })).toBe(
      'easeoff.concave.b',
    );
  });
});
