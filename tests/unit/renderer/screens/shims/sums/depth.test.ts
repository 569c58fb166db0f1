import { describe, expect, it } from 'vitest';
import { type DepthReadings, depthShimFrom } from '../../../../../../src/renderer/screens/shims/sums/depth.ts';
import { numberIn } from '../../../../../../src/renderer/screens/shims/sums/inputs.ts';
import { mm } from '../../../../../../src/shared/basics/quantity.ts';

const nothing: DepthReadings = {
  way: 'marks',
  place: 'under-head',
  shim: mm(1.2),
  unit: undefined,
  plusMeans: undefined,
  oldMark: undefined,
  newMark: undefined,
  gap: undefined,
  arbor: undefined,
  measured: undefined,
  nominal: undefined,
  measuredTo: undefined,
  wantedTo: undefined,
  head: undefined,
  pointer: undefined,
};
const shimOf = (change: Partial<DepthReadings>): number | string | undefined => {
  const answer = depthShimFrom({ ...nothing, ...change });
  if (answer === undefined) return undefined;
  return answer.ok ? Number(answer.value.shim.toFixed(4)) : answer.problem.kind;
};

describe('the depth shim as the screen asks for it', () => {
  it('waits for the unit and the meaning of the marks, and never assumes them', () => {
    const marks = { oldMark: -2, newMark: 3 };
    expect(shimOf(marks)).toBeUndefined();
    expect(shimOf({ ...marks, unit: '0.01 mm' })).toBeUndefined();
    expect(shimOf({ ...marks, unit: '0.01 mm', plusMeans: 'further out' })).toBe(1.15);
    expect(shimOf({ ...marks, unit: '0.01 mm', plusMeans: 'deeper' })).toBe(1.25);
    expect(shimOf({ ...marks, unit: '0.01 mm', plusMeans: 'further out', place: 'under-cage' })).toBe(1.25);
  });

  it('takes arbor and gap against nominal and mark, and asks which face each goes to', () => {
    // Common practice: 78.10 actual, nominal 78.00 and mark −0.08, so 0.18 mm is added.
    const arbor = { way: 'arbor', gap: mm(53.1), arbor: mm(50), nominal: mm(78), newMark: -8 } as const;
    expect(shimOf({ ...arbor, unit: '0.01 mm', plusMeans: 'further out', measuredTo: 'front' })).toBeUndefined();
    const front = { measuredTo: 'front', wantedTo: 'front', unit: '0.01 mm', plusMeans: 'further out' } as const;
    expect(shimOf({ ...arbor, ...front })).toBe(1.38);
    expect(shimOf({ ...arbor, ...front, wantedTo: 'back' })).toBe('faces-differ');
  });

  it('takes a full distance cut on the pinion without a nominal one', () => {
    const faces = { measuredTo: 'back', wantedTo: 'back' } as const;
    expect(shimOf({ way: 'distance', measured: mm(78.1), newMark: 78, unit: 'distance in mm', ...faces })).toBe(1.3);
  });

  it('believes a dial only where its turns can be told, and a block only with the shim on the head side', () => {
    expect(shimOf({ way: 'dial', pointer: 5 })).toBe(2.667);
    expect(shimOf({ way: 'dial', pointer: 50 })).toBe('turn-not-known');
    expect(shimOf({ way: 'block', gap: mm(0.9) })).toBe(0.9);
    expect(shimOf({ way: 'block', gap: mm(0.9), newMark: 3 })).toBeUndefined();
    expect(shimOf({ way: 'block', gap: mm(0.9), place: 'under-cage' })).toBe('no-block-for-cage');
  });

  it('reads signs as they are typed', () => {
    expect([numberIn('+3'), numberIn('−0,03'), numberIn(''), numberIn('set 12')]).toEqual([
      3,
      -0.03,
      undefined,
      undefined,
    ]);
  });
});
