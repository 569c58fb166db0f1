import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { backlashWorlds } from '../../../../hardware-sim/worlds/backlash/worlds.ts';
import { runoutWorlds } from '../../../../hardware-sim/worlds/runout/worlds.ts';
import { torqueWorlds } from '../../../../hardware-sim/worlds/torque/worlds.ts';
import type { Sample, World } from '../../../../hardware-sim/worlds/world.ts';
import { degrees, seconds } from '../../../../src/shared/basics/quantity.ts';
import { measureItems } from '../../../../src/shared/job/captures/measureItems.ts';
import type { StreamItem } from '../../../../src/shared/measuring/reading.ts';

/**
 * What the measuring makes of a few scenes of every world, kept word for word. It says nothing about right or wrong, which
 * `npm run bench worlds` does: it says that something changed. Records are worked out again from their readings years
 * later, so no figure may change without somebody meaning it. Meant: `npm test -- keptAnswers -u`, and read what changed.
 */
const scenesEach = 2;

it.each([
  ['backlash', backlashWorlds],
  ['runout', runoutWorlds],
  ['torque', torqueWorlds],
])('gives the answers for %s that it gave before', async (kind, worlds) => {
  const lines = worlds.flatMap((world) => Array.from({ length: scenesEach }, (_, seed) => answered(world, seed)));
  await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`kept/${kind}.txt`);
});

const itemOf = (sample: Sample): StreamItem => {
  const t = seconds(sample.t);
  if ('pedal' in sample) return { t, pedal: sample.pedal };
  const { value, angle_deg } = sample;
  return { t, value, ...(angle_deg === undefined ? {} : { angle: degrees(angle_deg) }) };
};

/** The figures a person sees, to six digits, and a mark of everything else in the answer. */
function answered({ kind, name, make }: World, seed: number): string {
  const { samples, told } = make(seed);
  const { resolution, gaugeU, hysteresis } = told;
  const { answer, measured } = measureItems(samples.map(itemOf), {
    kind,
    resolution,
    ...(gaugeU === undefined ? {} : { gaugeU }),
    ...(hysteresis === undefined ? {} : { hysteresis }),
    rule: 'simple',
    basis: 'running',
    limits: {},
  });
  const whole = JSON.stringify(answer, (_, value: unknown) => digits(value, 9));
  const mark = createHash('sha256').update(whole).digest('hex').slice(0, 12);
  return `${name} ${seed}: ${figures(answer)} | ${measured ? 'measured' : 'not measured'} ${mark}`;
}

const digits = (value: unknown, many: number): unknown =>
  typeof value === 'number' && Number.isFinite(value) ? Number(value.toPrecision(many)) : value;

const apart = new Set(['stations', 'budget', 'limits']);

const figures = (answer: unknown): string =>
  JSON.stringify(answer, (key, value: unknown) => (apart.has(key) ? undefined : digits(value, 6)));
