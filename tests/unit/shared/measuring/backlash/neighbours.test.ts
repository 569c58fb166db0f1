import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { t95 } from '../../../../../src/shared/basics/studentT.ts';
import { between, longestRow, rowsOf } from '../../../../../src/shared/measuring/backlash/neighbours.ts';
import { rest, row } from './rests.ts';

describe('rows', () => {
  it('end where the stretch or the side says that something is missing', () => {
    const rests = [...row(4, 0.2), rest('high', 0.2), rest('low', 0), rest('high', 5, { stretch: 1 })];
    expect(rowsOf(rests).map(({ length }) => length)).toEqual([4]);
    expect(
      rowsOf([...rests, ...row(3, 0.2).map((one) => ({ ...one, stretch: 1 }))]).map(({ length }) => length),
    ).toEqual([4, 4]);
    expect(longestRow([...row(3, 0.2), ...row(5, 0.2).map((one) => ({ ...one, stretch: 1 }))])).toHaveLength(5);
    expect(longestRow([rest('low', 0), rest('high', 1)])).toBeUndefined();
  });

  it('do not begin with the place where the gear lay', () => {
    const lay = rest('low', -0.1067);
    expect(rowsOf([lay, ...row(6, 0.2)])[0]).toHaveLength(6);
  });
});

describe('rests against their neighbours', () => {
  it('say the backlash, whatever drifts evenly, at any pace and from either side', () => {
    const pace = fc.array(fc.double({ min: 0.5, max: 8, noNaN: true }), { minLength: 12, maxLength: 12 });
    const speed = fc.double({ min: -0.02, max: 0.02, noNaN: true });
    fc.assert(
      fc.property(pace, speed, fc.integer({ min: 4, max: 11 }), fc.boolean(), (lasts, perSecond, many, fromHigh) => {
        const times = lasts.map((_, index) => lasts.slice(0, index + 1).reduce((sum, s) => sum + s, 0));
        const rests = row(
          many + 1,
          0.2,
          (t) => perSecond * t,
          (index) => times[index] ?? Number.NaN,
        );
        const found = between(fromHigh ? rests.slice(1) : rests.slice(0, -1));
        expect(found?.value).toBeCloseTo(0.2, 9);
        expect(found?.sd).toBeLessThan(1e-9);
        const taken = fromHigh ? rests.slice(1) : rests.slice(0, -1);
        const lasted = (taken.at(-1)?.at_t ?? Number.NaN) - (taken[0]?.at_t ?? Number.NaN);
        expect(found?.drift).toBeCloseTo(perSecond * lasted, 9);
      }),
      { seed: 20261130 },
    );
  });

  it('leave of an uneven drift only its bend, with alternating signs', () => {
    // 80 µm that come in with a memory of 30 s bend by 0.2 µm from one rest to the next at the beginning.
    const found = between(row(8, 0.2, (t) => 0.08 * (1 - Math.exp(-t / 30))));
    expect(Math.abs((found?.value ?? 0) - 0.2)).toBeLessThan(0.00003);
    expect(found?.sd).toBeGreaterThan(0.0001);
  });

  it('weigh the first and the last rest by half, the next by three halves', () => {
    // Weights ½, 1½, 2, 2, 2, 2, 1½, ½ of six threes: derived by writing out the mean of the six.
    const found = between(row(8, 0.2));
    expect(found?.share).toBeCloseTo(Math.sqrt(21) / 6, 12);
    expect(found?.nu).toBe(5);
    const moved = between(row(8, 0.2, (_, index) => (index === 3 ? 0.006 : 0)));
    expect(moved?.value).toBeCloseTo(0.202, 12);
  });

  it('take rows together without comparing their levels', () => {
    const rests = [...row(4, 0.2), ...row(6, 0.2, () => 3).map((one) => ({ ...one, stretch: 1 }))];
    const found = between(rests);
    expect(found?.value).toBeCloseTo(0.2, 12);
    expect(found?.sd).toBeLessThan(1e-12);
    expect(found?.nu).toBe(5);
  });

  it('say nothing where they are too few to scatter', () => {
    expect(between(row(3, 0.2))).toBeUndefined();
    expect(between(row(4, 0.2))?.nu).toBe(1);
    expect(between([])).toBeUndefined();
  });

  it('do not fail where the clock stands', () => {
    expect(between(row(8, 0.2, undefined, () => 4))?.value).toBeCloseTo(0.2, 12);
  });

  /** Share of runs in which t·sd·share holds the truth; rests of normal scatter, a drift under them. */
  const coverage = (rests: number): { readonly covered: number; readonly off: number } => {
    const random = seeded(rests);
    const runs = 8_000;
    let [covered, off] = [0, 0];
    for (let run = 0; run < runs; run += 1) {
      const speed = random.uniform(-0.002, 0.002);
      const found = between(row(rests, 0.2, (t) => speed * t + random.normal(0, 0.001)));
      if (found === undefined) throw new RangeError('no row');
      covered += Math.abs(found.value - 0.2) <= t95(found.nu) * found.sd * found.share ? 1 : 0;
      off += (found.value - 0.2) / runs;
    }
    return { covered: covered / runs, off };
  };

  it.each([6, 8, 16])('cover the truth as often as they say, drift or not: %i rests', (rests) => {
    const { covered, off } = coverage(rests);
    // 8,000 runs: three standard errors are 0.7 %.
    expect(covered).toBeGreaterThan(0.943);
    expect(covered).toBeLessThan(0.967);
    expect(Math.abs(off)).toBeLessThan(0.00004);
  });
});
