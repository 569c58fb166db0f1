import { describe, expect, it } from 'vitest';
import { againstKnown } from '../../../../../src/shared/gauges/learn/knownAmount.ts';

describe('a gauge moved by a known amount', () => {
  it.each([
    [0.51, 0.5, { is: 'agrees' }],
    [-0.5, 0.5, { is: 'turned' }],
    [0.0197, 0.5, { is: 'other-unit', reads: 'inches' }],
    [12.7, 0.5, { is: 'other-unit', reads: 'millimetres' }],
    [500, 0.5, { is: 'scale', times: 1000 }],
    [5.02, 0.5, { is: 'scale', times: 10 }],
    [0.0005, 0.5, { is: 'scale', times: 0.001 }],
    [0.3, 0.5, { is: 'differs', times: 0.6 }],
    [0, 0.5, { is: 'differs', times: 0 }],
    [0.01, 0.01, { is: 'too-small' }],
  ])('that shows %d for %d: %o', (shown, known, found) => {
    expect(againstKnown(shown, known, 0.001)).toMatchObject(found);
  });
});
