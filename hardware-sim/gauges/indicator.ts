import type { Random } from '../seeded.ts';
import type { Gauge } from './shown.ts';
import { MM_PER, otherLength, roundStep, stepped, type LengthUnit } from './units.ts';

/** What an indicator is like. Stem places are mm from the free end of its travel, inwards positive. */
export interface IndicatorTraits {
  readonly unit: LengthUnit;
  /** The last digit's step, in the gauge's own unit. */
  readonly resolution: number;
  /** Standard deviation of one reading before rounding. */
  readonly noise_mm: number;
  /** Full width of the reversal error: the reading lags the stem by half of it in either direction. */
  readonly hysteresis_mm: number;
  /** Error of the scale at a place of the stem, never beyond the stated error either way. */
  readonly errorAt: (stem_mm: number) => number;
  readonly statedError_mm: number;
  /** Stated limit of the hysteresis, as a certificate of the gauge would give it. */
  readonly statedHysteresis_mm: number;
  readonly travel_mm: number;
  /** +1 counts up as the stem is pushed in. */
  readonly sign: 1 | -1;
  /** Stem place that shows zero. */
  readonly zero_mm: number;
}

/** Play in the works: the output follows only when pushed, half the hysteresis behind. Returns the lagging place. */
export function play(width_mm: number): (stem_mm: number) => number {
  let follows: number | undefined;
  return (stem_mm) => {
    const near = stem_mm - width_mm / 2;
    const far = stem_mm + width_mm / 2;
    follows = follows === undefined ? stem_mm : Math.min(far, Math.max(near, follows));
    return follows;
  };
}

/**
 * A curve that stays within the stated error: a swing once per turn of the gears inside and a smaller, quicker one.
 * Wavelengths are those of common indicator works (from memory: 0.1 mm to 2 mm a turn).
 */
export function errorCurve(statedError_mm: number, random: Random): (stem_mm: number) => number {
  const slow = { length: random.uniform(0.8, 2), phase: random.uniform(0, 2 * Math.PI) };
  const quick = { length: random.uniform(0.1, 0.4), phase: random.uniform(0, 2 * Math.PI) };
  const swing = (stem_mm: number, wave: typeof slow) => Math.sin((2 * Math.PI * stem_mm) / wave.length + wave.phase);
  return (stem_mm) => statedError_mm * (0.7 * swing(stem_mm, slow) + 0.3 * swing(stem_mm, quick));
}

/**
 * An indicator with these traits, which remembers its last movement. Feed it the stem's places in order of time.
 * Beyond its travel the stem cannot follow: the reading stands at the end.
 */
export function indicator(traits: IndicatorTraits, random: Random): Gauge {
  const lag = play(traits.hysteresis_mm);
  let { unit, resolution, zero_mm } = traits;
  let last_mm = zero_mm;
  return {
    read(stem_mm) {
      const lagging_mm = lag(Math.min(traits.travel_mm, Math.max(0, stem_mm)));
      last_mm = lagging_mm + traits.errorAt(lagging_mm);
      const noisy_mm = last_mm - zero_mm + (traits.noise_mm > 0 ? random.normal(0, traits.noise_mm) : 0);
      const value = stepped((traits.sign * noisy_mm) / MM_PER[unit], resolution);
      return { value, unit, resolution, overload: stem_mm > traits.travel_mm };
    },
    pressZero() {
      zero_mm = last_mm;
    },
    pressUnit() {
      const next = otherLength(unit);
      resolution = roundStep((resolution * MM_PER[unit]) / MM_PER[next]);
      unit = next;
    },
  };
}

/** The same indicator without noise and without rounding: what its mechanism alone makes of the stem, mm. */
export function mechanismOnly(traits: IndicatorTraits): (stem_mm: number) => number {
  const lag = play(traits.hysteresis_mm);
  return (stem_mm) => {
    const lagging_mm = lag(Math.min(traits.travel_mm, Math.max(0, stem_mm)));
    return traits.sign * (lagging_mm + traits.errorAt(lagging_mm) - traits.zero_mm);
  };
}
