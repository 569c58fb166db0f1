import { describe, expect, it } from 'vitest';
import { caseDragFrom, totalTorque } from '../../../../src/shared/metrology/torqueSum.ts';
import { newtonMetres } from '../../../../src/shared/quantities/quantity.ts';

const known = (value: number, u: number) => ({ value: newtonMetres(value), u });

describe('total rotating torque', () => {
  // Common practice: total = pinion + case drag ÷ ratio + mesh friction.
  it('adds pinion, case through the ratio, and mesh', () => {
    const sum = totalTorque({ pinion: known(2, 0.06), caseDrag: known(3, 0.32), ratio: 4, mesh: known(0.1, 0) });
    expect(sum.total).toBeCloseTo(2.85, 12);
    expect(sum.uncertainty.u).toBeCloseTo(0.1, 12);
    expect(sum.uncertainty.parts.map(({ name }) => name)).toEqual(['pinion', 'case drag', 'mesh']);
    expect(totalTorque({ pinion: known(2, 0), caseDrag: known(3, 0), ratio: 4 }).total).toBeCloseTo(2.75, 12);
  });

  it('gives the case drag back', () => {
    expect(caseDragFrom(newtonMetres(2.85), newtonMetres(2), 4, newtonMetres(0.1))).toBeCloseTo(3, 12);
  });
});
