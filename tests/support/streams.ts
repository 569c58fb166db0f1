import { indicator, type IndicatorTraits } from '../../hardware-sim/gauges/indicator.ts';
import { torqueGauge, type TorqueTraits } from '../../hardware-sim/gauges/torqueGauge.ts';
import type { Gauge } from '../../hardware-sim/gauges/shown.ts';
import { MM_PER } from '../../hardware-sim/gauges/units.ts';
import { moments, type Stretch } from '../../hardware-sim/hands/motion.ts';
import type { Session } from '../../hardware-sim/hands/stations.ts';
import type { Random } from '../../hardware-sim/seeded.ts';

/** Objects as a file with one a line. */
export const asLines = (lines: readonly object[]): string => lines.map((line) => `${JSON.stringify(line)}\n`).join('');

/** A session of the simulated hand as `watch` would have written it, in the gauge's own unit, presses in their places. */
export function sessionLines({ readings, presses, gauge: { unit } }: Session): readonly object[] {
  const read = readings.map(({ t, value_mm }) => ({ t, value: value_mm / MM_PER[unit], unit }));
  return [...read, ...presses].toSorted((one, other) => one.t - other.t);
}

/** A motion as a gauge shows it, with the angle of what turns. */
export function motionLines(stretches: Iterable<Stretch>, gauge: Gauge, rate_Hz = 100): readonly object[] {
  return [...moments(stretches, rate_Hz)].map(({ t_s, value, angle_rad }) => {
    const { value: shown, unit } = gauge.read(value);
    const angle = angle_rad === undefined ? {} : { angle_deg: (angle_rad * 180) / Math.PI };
    return { t: t_s, value: shown, unit, ...angle };
  });
}

/** An indicator that is true but for its last digit and a little noise. */
export const trueIndicator = (random: Random, changes: Partial<IndicatorTraits> = {}): Gauge =>
  indicator(
    {
      unit: 'mm',
      resolution: 0.001,
      noise_mm: 0.0003,
      hysteresis_mm: 0,
      errorAt: () => 0,
      statedError_mm: 0,
      statedHysteresis_mm: 0,
      travel_mm: 10,
      sign: 1,
      zero_mm: 2,
      ...changes,
    },
    random,
  );

/** A torque gauge that is true but for its last digit and a little noise. */
export const trueTorqueGauge = (random: Random, changes: Partial<TorqueTraits> = {}): Gauge =>
  torqueGauge(
    {
      unit: 'N.m',
      resolution: 0.01,
      noise_Nm: 0.01,
      error_percent: 0,
      statedError_percent: 0,
      range_Nm: 25,
      sign: 1,
      ...changes,
    },
    random,
  );
