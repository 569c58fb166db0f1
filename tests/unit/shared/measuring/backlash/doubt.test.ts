import { describe, expect, it } from 'vitest';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import { partsOf } from '../../../../../src/shared/measuring/backlash/doubt.ts';
import { heldAt } from '../../../../../src/shared/measuring/backlash/held.ts';
import { between } from '../../../../../src/shared/measuring/backlash/neighbours.ts';
import type { Rest } from '../../../../../src/shared/measuring/backlash/rocks.ts';
import { rest, row } from './rests.ts';
import { settings } from './scripted.ts';

const gauge = { noise: 0.0005, resolution: 0.001 };
/** Each rest off by this much, in turn one way and the other for each side. */
const unlike = (by: number): readonly Rest[] => row(8, 0.2, (_, index) => (index % 4 < 2 ? by : -by));

function found(rests: readonly Rest[]) {
  const it = between(rests);
  if (it === undefined) throw new RangeError('no row');
  return it;
}

describe('the parts of the doubt', () => {
  const partsFor = (rests: readonly Rest[], more = {}) =>
    partsOf(settings(more), found(rests), heldAt(rests, found(rests), gauge));

  it('are named, and those left out that have nothing to tell', () => {
    expect(partsFor(row(8, 0.2)).map(({ name }) => name)).toEqual(['resolution', 'hysteresis, not stated', 'rocks']);
    const all = partsFor(unlike(0.005), { gaugeU: mm(0.002), hysteresis: mm(0.003) });
    expect(all.map(({ name }) => name)).toEqual(['resolution', 'gauge', 'hysteresis', 'rocks', 'short of the stop']);
  });

  it('take one step at either reading for a hysteresis that nobody stated, and a stated one over √2', () => {
    expect(partsFor(row(8, 0.2))[1]?.u).toBeCloseTo(0.002 / Math.sqrt(3), 12);
    expect(partsFor(row(8, 0.2), { hysteresis: mm(0.003) })[1]?.u).toBeCloseTo(0.003 / Math.SQRT2, 12);
  });

  it('count how rests differ, with the degrees of freedom that are left', () => {
    const { sd, share, nu } = found(unlike(0.005));
    const rocks = partsFor(unlike(0.005)).find(({ name }) => name === 'rocks');
    expect(rocks).toEqual({ name: 'rocks', u: sd * share, nu });
    expect(nu).toBe(5);
  });

  it('count two and a half times what the gauge does not explain: rests fall short and never go beyond', () => {
    const { sd, nu } = found(unlike(0.005));
    const explained = Math.hypot(0.0005 / Math.sqrt(10), 0.001 / Math.sqrt(12));
    const short = partsFor(unlike(0.005)).find(({ name }) => name === 'short of the stop');
    expect(short?.u).toBeCloseTo(2.5 * Math.sqrt(sd * sd - explained * explained), 12);
    expect(short?.nu).toBe(nu);
  });
});

describe('how rests were held', () => {
  const heldWith = (more: (index: number) => Partial<Rest>) => {
    const rests = row(8, 0.2).map((one, index) => ({ ...one, ...more(index) }));
    return heldAt(rests, found(rests), gauge);
  };

  it('shows nothing where they stood', () => {
    expect(heldWith(() => ({}))).toEqual({ unexplained: 0, creep: 0, sway: 0 });
  });

  it('counts a creep that goes inwards on both sides, and one that goes outwards', () => {
    const inwards = (by: number) => heldWith((index) => ({ creep: index % 2 === 0 ? by : -by })).creep;
    expect(inwards(0.002)).toBeCloseTo(1.5 * 0.002, 9);
    expect(inwards(-0.002)).toBeCloseTo(1.5 * 0.002, 9);
  });

  it('does not count what both sides have in common: that is a drift, and falls out', () => {
    expect(heldWith(() => ({ creep: 0.002 })).creep).toBe(0);
  });

  it('does not count a creep that chance explains', () => {
    expect(heldWith((index) => ({ creep: [0.002, -0.001, -0.002, 0.001][index % 4] ?? 0 })).creep).toBeLessThan(0.001);
  });

  it('knows from the bow of the rests a sway in step with the rocking', () => {
    // 10 µm · cos(πt/1.5) at its crest for the high side, its trough for the low: twice 10 µm in the backlash.
    const [apart_s, read_s, height] = [1.5, 0.7, 0.01];
    const bow = height * (1 - Math.cos((Math.PI / apart_s) * (read_s / 2)));
    const { sway } = heldWith((index) => ({ read_s, bow: index % 2 === 0 ? bow : -bow }));
    expect(sway).toBeGreaterThan(0.9 * 2 * height);
    expect(sway).toBeLessThan(1.05 * 2 * height);
  });
});

describe('a rest alone', () => {
  it('is explained by noise over its readings and by rounding', () => {
    const rests = [
      rest('low', 0, { readings: 4 }),
      rest('high', 0.2, { readings: 4 }),
      rest('low', 0, { readings: 4 }),
    ];
    const spread = { ...found(row(8, 0.2)), sd: 0.01 };
    const { unexplained } = heldAt(rests, spread, { noise: 0.002, resolution: 0.001 });
    expect(unexplained).toBeCloseTo(Math.sqrt(0.01 ** 2 - 0.001 ** 2 - 0.001 ** 2 / 12), 9);
  });
});
