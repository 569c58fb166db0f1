import type { Random } from '../seeded.ts';
import type { Gauge } from './shown.ts';
import { NM_PER, otherTorque, roundStep, stepped, type TorqueUnit } from './units.ts';

/** What a torque gauge is like. */
export interface TorqueTraits {
  readonly unit: TorqueUnit;
  /** The last digit's step, in the gauge's own unit. */
  readonly resolution: number;
  /** Standard deviation of one reading before rounding. */
  readonly noise_Nm: number;
  /** Real error of its scale, per cent of the reading. */
  readonly error_percent: number;
  /** Largest error stated for it, per cent of the reading. */
  readonly statedError_percent: number;
  readonly range_Nm: number;
  /** −1 where the gauge counts the way the pinion is turned as negative. */
  readonly sign: 1 | -1;
}

/** A torque gauge with these traits. Beyond its range it stands at the end and says so. */
export function torqueGauge(traits: TorqueTraits, random: Random): Gauge {
  let { unit, resolution } = traits;
  let zero_Nm = 0;
  let last_Nm = 0;
  return {
    read(torque_Nm) {
      const within_Nm = Math.min(traits.range_Nm, Math.max(-traits.range_Nm, torque_Nm));
      last_Nm = within_Nm * (1 + traits.error_percent / 100);
      const noisy_Nm = last_Nm - zero_Nm + (traits.noise_Nm > 0 ? random.normal(0, traits.noise_Nm) : 0);
      const value = stepped((traits.sign * noisy_Nm) / NM_PER[unit], resolution);
      return { value, unit, resolution, overload: Math.abs(torque_Nm) > traits.range_Nm };
    },
    pressZero() {
      zero_Nm = last_Nm;
    },
    pressUnit() {
      const next = otherTorque(unit);
      resolution = roundStep((resolution * NM_PER[unit]) / NM_PER[next]);
      unit = next;
    },
  };
}
