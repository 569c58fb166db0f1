import { describe, expect, it } from 'vitest';
import { unitNamed } from '../../../../../src/shared/basics/units.ts';
import { readsKind } from '../../../../../src/shared/job/captures/torqueScale.ts';

describe('what a gauge of a kind reads', () => {
  it.each([
    ['indicator', 'mm', true],
    ['indicator', '[in_i]', true],
    ['indicator', 'N.m', false],
    ['torque', 'N.m', true],
    ['torque', 'N', true],
    ['torque', 'mm', false],
  ] as const)('%s and %s: %s', (kind, ucum, reads) => {
    const unit = unitNamed(ucum);
    expect(unit).toBeDefined();
    expect(unit !== undefined && readsKind(kind, unit)).toBe(reads);
  });
});
