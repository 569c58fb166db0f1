import { describe, expect, it } from 'vitest';
import { runoutWorlds } from '../../../../../hardware-sim/worlds/runout/worlds.ts';
import type { Sample, Scene } from '../../../../../hardware-sim/worlds/world.ts';
import { degrees, mm, seconds } from '../../../../../src/shared/basics/quantity.ts';
import { retimedAll } from '../../../../../src/shared/job/captures/retimed.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import {
  finishRunout,
  type RunoutMeasured,
  startRunout,
  stepRunout,
} from '../../../../../src/shared/measuring/runout/runout.ts';

function itemOf(sample: Sample): StreamItem {
  const t = seconds(sample.t);
  if ('pedal' in sample) return { t, pedal: sample.pedal };
  const angle = sample.angle_deg === undefined ? {} : { angle: degrees(sample.angle_deg) };
  return { t, value: sample.value, ...angle };
}

/** A few scenes of each world, those among them that once came out wrong; the populations are printed by `npm run bench worlds`. */
function measure({ samples, told }: Scene): RunoutMeasured {
  const capture = startRunout({ resolution: mm(told.resolution), mode: 'auto' });
  for (const item of retimedAll(samples.map(itemOf))) stepRunout(capture, item);
  return finishRunout(capture);
}

function scenesOf(name: string, seeds: readonly number[]) {
  const world = runoutWorlds.find((one) => one.name === name);
  if (world === undefined) throw new Error(`no world is called ${name}`);
  return seeds.map((seed) => {
    const scene = world.make(seed);
    return { seed, truth: scene.truths[0]?.value, found: measure(scene) };
  });
}

const first = (count: number): readonly number[] => Array.from({ length: count }, (_, seed) => seed);

describe.each([
  ['press while the stem lands', first(30)],
  ['stem put down, angle measured', first(20)],
  ['stem lifted at the end', first(20)],
  ['busy machine', first(30)],
  ['stations, first press while the stem lands', first(20)],
  ['second press late', first(20)],
  ['wandering noise', first(20)],
  ['creep of a runout', first(20)],
  // A burr in bins with empty ones between them was once no burr.
  ['burr', [26, 38, 40, 52, 64, 65]],
  ['runs true', first(20)],
  ['read in blocks', first(20)],
  ['stall over a press', first(20)],
  ['lost in stalls', first(20)],
  ['uneven pace', first(20)],
  ['no pace', first(20)],
  ['a stand that hums', first(20)],
  ['stations, creeping base', first(20)],
])('in the world "%s"', (name, seeds) => {
  const scenes = scenesOf(name, seeds);

  it('no number lies beyond three times its doubt', () => {
    for (const { seed, truth, found } of scenes) {
      if (typeof found.tir !== 'number' || typeof truth !== 'number') continue;
      expect(Math.abs(found.tir - truth) / found.U95, `seed ${seed}`).toBeLessThan(3);
    }
  });

  it('most deserve a number', () => {
    const given = scenes.filter(({ found }) => typeof found.tir === 'number').length;
    expect(given / scenes.length).toBeGreaterThanOrEqual(0.7);
  });
});

describe('where nothing turned', () => {
  it('there is no number, and the reason says so', () => {
    const reasons = scenesOf('nothing turned', first(60)).map(({ found }) =>
      typeof found.tir === 'number' ? 'number' : found.tir.none,
    );
    expect(reasons.filter((reason) => reason === 'number')).toEqual([]);
    expect(new Set(reasons)).toEqual(new Set(['not-turned', 'too-few', 'part-turn']));
  });

  it('there is none either where the stand creeps or hums', () => {
    const numbers = scenesOf('only the stand moves', first(60)).filter(({ found }) => typeof found.tir === 'number');
    expect(numbers.map(({ seed }) => seed)).toEqual([]);
  });

  it.each([
    ['one reading', [0.2], 'too-few'],
    ['four equal readings typed', [0.2, 0.2, 0.2, 0.2], 'not-turned'],
  ])('%s give none', (_, values, reason) => {
    const samples = values.map((value, index) => ({ t: 3 * index, value, unit: 'mm' as const }));
    const found = measure({ samples, truths: [], told: { resolution: 0.001 } });
    expect(found.tir).toEqual({ none: reason });
  });

  it('five hundred equal readings and three presses give none', () => {
    const readings = Array.from({ length: 500 }, (_, index) => ({ t: index / 50, value: 0.2, unit: 'mm' as const }));
    const presses = [1, 4, 8].map((t) => ({ t, pedal: 'next' as const }));
    const samples = [...readings, ...presses].toSorted((a, b) => a.t - b.t);
    expect(measure({ samples, truths: [], told: { resolution: 0.001 } }).tir).toEqual({ none: 'not-turned' });
  });
});

describe('part of a turn without angle', () => {
  it('is refused as part of a turn in most of its scenes', () => {
    const reasons = scenesOf('part of a turn', first(40))
      .filter(({ truth }) => typeof truth === 'number')
      .map(({ found }) => (typeof found.tir === 'number' ? 'number' : found.tir.none));
    expect(reasons.filter((reason) => reason === 'part-turn').length).toBeGreaterThanOrEqual(26);
  });
});

describe('noise that each reading has by itself', () => {
  it('is seldom taken for noise that wanders, where the angle tells the surface from it', () => {
    const world = runoutWorlds.find((one) => one.name === 'home');
    if (world === undefined) throw new Error('no such world');
    const rides = first(80)
      .map(world.make)
      .filter(({ samples }) => samples.some((sample) => 'angle_deg' in sample));
    const flagged = rides.filter((scene) => measure(scene).flags.includes('correlated-noise'));
    expect(rides.length).toBeGreaterThan(20);
    expect(flagged.length / rides.length).toBeLessThan(0.15);
  });
});
