import { describe, expect, it } from 'vitest';
import { backlashWorlds } from '../../../../hardware-sim/worlds/backlash/worlds.ts';
import { heightAt, trueRunout } from '../../../../hardware-sim/worlds/runout/turn.ts';
import { runoutWorlds } from '../../../../hardware-sim/worlds/runout/worlds.ts';
import { torqueWorlds } from '../../../../hardware-sim/worlds/torque/worlds.ts';

const all = [...runoutWorlds, ...backlashWorlds, ...torqueWorlds];
const seeds = [0, 1, 2, 3, 4];

describe.each(all.map((world) => [`${world.kind}: ${world.name}`, world] as const))('the world %s', (_, world) => {
  it('makes the same scene of the same seed, and another of another', () => {
    expect(world.make(3)).toEqual(world.make(3));
    expect(world.make(3)).not.toEqual(world.make(4));
  });

  it('tells readings in the order in which they came, in whole steps of its gauge', () => {
    for (const { samples, told } of seeds.map(world.make)) {
      const times = samples.map(({ t }) => t);
      expect(times).toEqual(times.toSorted((a, b) => a - b));
      for (const sample of samples) {
        if ('pedal' in sample) continue;
        const steps = sample.value / told.resolution;
        expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-3);
      }
    }
  });

  it('says what is true', () => {
    for (const { truths } of seeds.map(world.make)) {
      expect(truths.length).toBeGreaterThan(0);
      for (const { value } of truths) expect(value === 'none' || (value >= 0 && value < 50)).toBe(true);
    }
  });
});

describe('the worlds', () => {
  it('have a name of their own each', () => {
    const names = all.map(({ kind, name }) => `${kind}: ${name}`);
    expect(new Set(names).size).toBe(names.length);
  });

  it('know the runout of one lobe: twice its amplitude, high where it says', () => {
    const surface = { waves: [{ order: 1, amplitude_mm: 0.02, high_rad: 1 }] };
    expect(trueRunout(surface)).toBeCloseTo(0.04, 6);
    expect(heightAt(surface, 1)).toBeCloseTo(0.02, 9);
  });
});
