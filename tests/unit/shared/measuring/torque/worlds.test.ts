import { describe, expect, it } from 'vitest';
import { torqueWorlds } from '../../../../../hardware-sim/worlds/torque/worlds.ts';
import type { Sample, World } from '../../../../../hardware-sim/worlds/world.ts';
import { degrees, newtonMetres, seconds } from '../../../../../src/shared/basics/quantity.ts';
import { retimedAll } from '../../../../../src/shared/job/captures/retimed.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import {
  finishTorque,
  startTorque,
  stepTorque,
  type TorqueMeasured,
} from '../../../../../src/shared/measuring/torque/torque.ts';

const scenes = 40;

function itemOf(sample: Sample): StreamItem {
  const t = seconds(sample.t);
  if ('pedal' in sample) return { t, pedal: sample.pedal };
  const { value, angle_deg } = sample;
  return { t, value, ...(angle_deg === undefined ? {} : { angle: degrees(angle_deg) }) };
}

function measured(world: World, seed: number) {
  const { samples, truths, told } = world.make(seed);
  const capture = startTorque({ resolution: newtonMetres(told.resolution) });
  for (const item of retimedAll(samples.map(itemOf))) stepTorque(capture, item);
  const found = finishTorque(capture);
  return truths.map((truth) => ({ of: truth.of, truth: truth.value, flags: found.flags, ...figure(found, truth.of) }));
}

const figure = (found: TorqueMeasured, of: string) =>
  of === 'breakaway' ? { value: found.breakaway, U95: found.breakawayU95 } : { value: found.running, U95: found.U95 };

/** Where the top of a start is gone before it is read: nothing in the readings tells a gauge that averages, nor always one that ends. */
const hidesStarts: ReadonlySet<string> = new Set(['calmed display', 'range ends']);

describe('torque in worlds of other beliefs', () => {
  const turned = torqueWorlds.filter(({ name }) => name !== 'nothing turned');

  it.each(turned)('keeps its U95, or says what is wrong: $name', (world) => {
    const figures = Array.from({ length: scenes }, (_, seed) => measured(world, seed))
      .flat()
      .filter(({ of }) => of === 'running' || !hidesStarts.has(world.name));
    const given = figures.flatMap(({ value, truth, U95, flags }) =>
      typeof value === 'number' && typeof truth === 'number' ? [{ off: Math.abs(value - truth), U95, flags }] : [],
    );
    // Forty scenes scatter: the bench looks at more of them, and holds each world to 93 %.
    expect(given.filter(({ off, U95 }) => off <= U95).length).toBeGreaterThan(0.88 * given.length);
    expect(given.filter(({ off, U95, flags }) => off > 3 * U95 && flags.length === 0).length).toBeLessThan(2);
    if (world.honest) expect(given.length).toBeGreaterThan(0.85 * figures.length);
  });

  it('gives hardly a number for a gauge that turned nothing, and none without a word', () => {
    const world = torqueWorlds.find(({ name }) => name === 'nothing turned');
    if (world === undefined) throw new Error('no such world');
    const figures = Array.from({ length: 4 * scenes }, (_, seed) => measured(world, seed)).flat();
    const given = figures.filter(({ value }) => typeof value === 'number');
    expect(given.length).toBeLessThan(0.03 * figures.length);
    expect(given.filter(({ flags }) => flags.length === 0)).toEqual([]);
  });
});
