import { describe, expect, it } from 'vitest';
import { anyIndicator } from '../../../../../hardware-sim/gauges/anyIndicator.ts';
import { indicator } from '../../../../../hardware-sim/gauges/indicator.ts';
import { MM_PER } from '../../../../../hardware-sim/gauges/units.ts';
import { moments } from '../../../../../hardware-sim/hands/motion.ts';
import { runoutTruth } from '../../../../../hardware-sim/hands/turnTruth.ts';
import { turning, turningByStations } from '../../../../../hardware-sim/hands/turning.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import {
  finishRunout,
  type RunoutSettings,
  startRunout,
  stepRunout,
} from '../../../../../src/shared/measuring/runout/runout.ts';
import { rectangular } from '../../../../../src/shared/measuring/uncertainty/uncertainty.ts';
import { mm, radians, seconds } from '../../../../../src/shared/basics/quantity.ts';

/** One simulated runout: any indicator, any hand, noise up to two resolutions, 3 to 100 readings a second. */
function simulate(seed: number, by: 'turn' | 'stations', withAngle: boolean) {
  const random = seeded(seed);
  const traits = anyIndicator(random);
  const resolution = mm(traits.resolution * MM_PER[traits.unit]);
  const [e, one, w, two] = [
    random.uniform(0.005, 0.06),
    random.uniform(0, 6),
    random.uniform(0, 0.015),
    random.uniform(0, 6),
  ];
  const surfaceAt = (angle: number) => e * Math.cos(angle - one) + w * Math.cos(2 * angle - two);
  const start_rad = random.uniform(0, 6);
  const hand = {
    surfaceAt,
    preload_mm: 1,
    start_rad,
    speed_rad_s: random.uniform(0.4, 2),
    unevenness: random.uniform(0, 0.5),
    rest_s: random.uniform(0.8, 2),
  };
  const gauge = indicator({ ...traits, zero_mm: 0, travel_mm: 5 }, random);
  const settings: RunoutSettings = {
    resolution,
    gaugeU: mm(Math.hypot(rectangular(traits.statedError_mm), rectangular(traits.statedHysteresis_mm / 2))),
    ...(by === 'turn' ? { mode: 'continuous' } : { mode: 'stations', stations: 8 }),
  };
  const capture = startRunout(settings);
  const motion = by === 'turn' ? turning(hand, random.uniform(1.02, 1.3), random) : turningByStations(hand, 8, random);
  for (const { t_s, value, angle_rad = 0 } of moments(motion, random.uniform(3, 100))) {
    const read = gauge.read(value);
    const angle = withAngle ? { angle: radians(angle_rad % (2 * Math.PI)) } : {};
    stepRunout(capture, { t: seconds(t_s), value: read.value * MM_PER[traits.unit], ...angle });
  }
  const found = finishRunout(capture);
  const heights = Array.from({ length: 8 }, (_, i) => surfaceAt(start_rad + (i * Math.PI) / 4));
  const atStations = Math.max(...heights) - Math.min(...heights);
  return { found, truth: found.stations === undefined ? runoutTruth(surfaceAt).tir_mm : atStations };
}

describe.each([
  ['turn', true],
  ['turn', false],
  ['stations', true],
  ['stations', false],
] as const)('simulated hands and gauges, by %s, angle measured: %s', (by, withAngle) => {
  const runs = Array.from({ length: 100 }, (_, seed) => simulate(1000 + seed, by, withAngle));

  it('keep the truth within U95 in nine of ten, never far outside', () => {
    // Without the angle the readings alone must show that the gear was turned, and once round.
    const errors = runs.flatMap(({ found, truth }) =>
      typeof found.tir === 'number' ? [Math.abs(found.tir - truth) / found.U95] : [],
    );
    expect(errors.length).toBeGreaterThanOrEqual(withAngle ? 100 : 85);
    expect(errors.filter((error) => error <= 1).length).toBeGreaterThanOrEqual(90);
    expect(Math.max(...errors)).toBeLessThan(3);
  });

  it('number stations only when all of them were told apart', () => {
    for (const { found } of runs) expect([undefined, 8]).toContain(found.stations?.length);
  });
});
