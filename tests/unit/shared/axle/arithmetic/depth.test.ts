import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import { type DepthPlace, depthPlaces, shimForMovement } from '../../../../../src/shared/axle/arithmetic/depthShim.ts';
import {
  dialTravel,
  distanceFromArbor,
  shimFromDistance,
  shimFromGaugeBlock,
  wantedDistance,
} from '../../../../../src/shared/axle/arithmetic/depthTool.ts';
import {
  carryShimOver,
  contradictionIn,
  type EtchedMark,
  markUnits,
  plusMeanings,
} from '../../../../../src/shared/axle/arithmetic/etchedMark.ts';
import type { Result } from '../../../../../src/shared/basics/result.ts';

const valueOf = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(result.problem.sentence);
  return result.value;
};

const marks = fc.record({
  value: fc.integer({ min: -8, max: 8 }),
  unit: fc.constantFrom(
    ...markUnits.filter((unit) => unit === '0.001 in' || unit === '0.01 mm' || unit === '0.001 mm'),
  ),
  plusMeans: fc.constantFrom(...plusMeanings),
});
const places = fc.constantFrom(...depthPlaces);
const shims = fc.double({ min: 0.5, max: 2, noNaN: true }).map(mm);

describe('carrying a depth shim over', () => {
  it('changes nothing between identical marks, whatever unit, meaning and place', () => {
    fc.assert(
      fc.property(marks, places, shims, (mark, place, shim) => {
        const found = valueOf(carryShimOver(shim, mark, mark, place));
        expect(found.change).toBeCloseTo(0, 12);
        expect(found.words).toContain('The pinion stays where it is.');
      }),
      { seed: 20250531 },
    );
  });

  it('comes back when the pinions are swapped back', () => {
    fc.assert(
      fc.property(marks, marks, places, shims, (old, fresh, place, shim) => {
        const there = valueOf(carryShimOver(shim, old, fresh, place));
        expect(valueOf(carryShimOver(there.shim, fresh, old, place)).shim).toBeCloseTo(shim, 12);
      }),
      { seed: 20250531 },
    );
  });

  it('moves the pinion the same way wherever the shim sits; only the shim changes its sign', () => {
    fc.assert(
      fc.property(marks, marks, shims, (old, fresh, shim) => {
        const [head, cup, cage] = depthPlaces.map((place) => valueOf(carryShimOver(shim, old, fresh, place)));
        expect(head?.pinionOut).toBeCloseTo(cage?.pinionOut ?? NaN, 12);
        expect(cup?.change).toBeCloseTo(head?.change ?? NaN, 12);
        expect(cage?.change).toBeCloseTo(0 - (head?.change ?? NaN), 12);
      }),
      { seed: 20250531 },
    );
  });

  it('says which way in words: a pinion that wants to be further out gets a thinner shim under its head', () => {
    const found = valueOf(carryShimOver(mm(0.8), mark(-3), mark(2), 'under-head'));
    expect(found.words).toBe(
      'The pinion goes out by 0.127 mm (0.0050 in). The shim under the pinion head bearing gets 0.127 mm (0.0050 in) thinner.',
    );
    expect(valueOf(carryShimOver(mm(0.8), mark(2), mark(-3), 'under-cage')).words).toContain('goes deeper by');
  });

  it('compares full distances with each other, never with a deviation', () => {
    const distance = (value: number): EtchedMark => ({ value, unit: 'distance in inches', plusMeans: 'further out' });
    expect(valueOf(carryShimOver(mm(0.8), distance(2.5), distance(2.504), 'under-head')).pinionOut).toBeCloseTo(
      0.1016,
      9,
    );
    expect(carryShimOver(mm(0.8), distance(2.5), mark(2), 'under-head')).toMatchObject({
      problem: { kind: 'marks-differ-in-kind' },
    });
  });

  it('refuses marks that move the pinion further than marks do, and shims thinner than nothing', () => {
    expect(carryShimOver(mm(0.8), mark(0), mark(312), 'under-head')).toMatchObject({
      problem: { kind: 'mark-too-large' },
    });
    expect(shimForMovement(mm(0.05), mm(0.1), 'under-head')).toMatchObject({ problem: { kind: 'no-such-shim' } });
  });
});

describe('a printed rule', () => {
  it('can be right only where the two marks pull against each other', () => {
    expect(contradictionIn({ old: 1, new: -1 })).toBeUndefined();
    expect(contradictionIn({ old: -1, new: 1 })).toBeUndefined();
    for (const rule of [
      { old: 1, new: 1 },
      { old: -1, new: -1 },
      { old: 0, new: 1 },
      { old: 0, new: 0 },
    ] as const) {
      expect(contradictionIn(rule)).toContain('identical marks must give no change');
    }
  });
});

describe('a depth tool', () => {
  // Derived, own numbers of the reference page: arbor and gap give 78.10, nominal 78.00, mark −0.08: add 0.18.
  it('arbor and gap: measured less wanted is what the head shim gains', () => {
    const measured = distanceFromArbor({ gap: mm(53.1), arborDiameter: mm(50), to: 'back' });
    const wanted = wantedDistance(mm(78), { value: -0.08, unit: 'mm', plusMeans: 'further out' });
    const found = valueOf(shimFromDistance(measured, { distance: wanted, to: 'back' }, mm(0.5), 'under-head'));
    expect(found.change).toBeCloseTo(0.18, 9);
    expect(found.words).toContain('goes deeper');
  });

  // Derived: shim 0.020 in, reads 2.490, etched 2.504: change −0.014, new 0.006 in.
  it('a full distance etched on the head stands for the wanted one', () => {
    const etched: EtchedMark = { value: 2.504, unit: 'distance in inches', plusMeans: 'further out' };
    const wanted = { distance: wantedDistance(mm(0), etched), to: 'front' } as const;
    const found = valueOf(
      shimFromDistance({ distance: mm(2.49 * 25.4), to: 'front' }, wanted, mm(0.02 * 25.4), 'under-head'),
    );
    expect(found.shim / 25.4).toBeCloseTo(0.006, 9);
  });

  it('never mixes a checking distance with a mounting distance', () => {
    const front = { distance: mm(60), to: 'front' } as const;
    const back = { distance: mm(95), to: 'back' } as const;
    expect(shimFromDistance(front, back, mm(1), 'under-head')).toMatchObject({ problem: { kind: 'faces-differ' } });
    expect(valueOf(shimFromDistance(front, back, mm(1), 'under-head', mm(35.2))).change).toBeCloseTo(0.2, 9);
    expect(valueOf(shimFromDistance(back, front, mm(1), 'under-head', mm(35.2))).change).toBeCloseTo(-0.2, 9);
  });

  it('gauge block: the feeler is the shim for a pinion marked 0, + takes off and − adds', () => {
    const shim = (value: number, place: Exclude<DepthPlace, 'under-cage'>) =>
      valueOf(shimFromGaugeBlock(mm(0.9), mark(value), mm(0.9), place)).shim;
    expect(shim(0, 'under-head')).toBeCloseTo(0.9, 9);
    expect(shim(3, 'under-head')).toBeCloseTo(0.9 - 0.0762, 9);
    expect(shim(-3, 'behind-head-cup')).toBeCloseTo(0.9 + 0.0762, 9);
  });

  it('does not guess how often the dial went round', () => {
    for (const pointer of [12, 50, 83, 100, -1, Number.NaN]) {
      expect(dialTravel(pointer)).toMatchObject({ problem: { kind: 'turn-not-known' } });
    }
  });
});

const mark = (value: number): EtchedMark => ({ value, unit: '0.001 in', plusMeans: 'further out' });
