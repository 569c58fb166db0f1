import { describe, expect, it } from 'vitest';
import { axleDraftOf, blankAxle, readAxle } from '../../../../../../src/renderer/screens/job/axle/draft.ts';
import { roundAxle } from '../../../../../support/roundAxle.ts';

describe('an axle as it is described', () => {
  it.each(['metric', 'inch'] as const)('reads back the make-up it was shown from, in %s units', (units) => {
    const read = readAxle(axleDraftOf(roundAxle.makeUp, units), units);
    expect(read.ok && Object.keys(read.value).toSorted()).toEqual(Object.keys(roundAxle.makeUp).toSorted());
    for (const [field, value] of Object.entries(roundAxle.makeUp)) {
      const now: unknown = read.ok ? Object.entries(read.value).find(([name]) => name === field)?.[1] : undefined;
      // Six decimals of an inch are shown: 0.0000005 in is 13 nm.
      if (typeof value === 'number') expect(now, field).toBeCloseTo(value, 4);
      else expect(now, field).toBe(value);
    }
  });

  it('asks for the tooth counts and for every choice that is not made', () => {
    const read = readAxle(blankAxle, 'metric');
    const asked = [
      'pinionTeeth',
      'ringTeeth',
      'gearSet',
      'driveFlank',
      'caseAdjustment',
      'pinionMount',
      'pinionPreload',
    ];
    expect(read.ok ? [] : Object.keys(read.errors).toSorted()).toEqual([...asked, 'depthShimPlace'].toSorted());
  });

  it('refuses a shim under a cage that is not there, at the field', () => {
    const draft = { ...axleDraftOf(roundAxle.makeUp, 'metric'), pinionMount: 'integral', depthShimPlace: 'under-cage' };
    const read = readAxle(draft, 'metric');
    expect(read.ok ? {} : read.errors).toEqual({ depthShimPlace: expect.stringContaining('has no cage') as unknown });
  });

  it('takes a length with a unit of its own before that of the session', () => {
    const draft = { ...axleDraftOf(roundAxle.makeUp, 'inch'), outerDiameter_mm: '200 mm' };
    const read = readAxle(draft, 'inch');
    expect(read.ok && read.value.outerDiameter_mm).toBeCloseTo(200, 9);
  });
});
