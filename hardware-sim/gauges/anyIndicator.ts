import type { Random } from '../seeded.ts';
import { errorCurve, type IndicatorTraits } from './indicator.ts';
import { MM_PER, type LengthUnit } from './units.ts';

interface Finish {
  readonly unit: LengthUnit;
  readonly resolution: number;
  readonly error_mm: number;
  readonly hysteresis_mm: number;
}

// Assumed, of the order that JIS B 7503:2011 prints (as retrieved from an extract: graduation 0.01 mm, up to 1 mm of
// travel: 8 µm and retrace 3 µm; 0.005 mm: 12 µm and 3 µm; 0.001 mm, up to 1 mm: 5 µm and 2 µm).
const FINISHES: readonly Finish[] = [
  { unit: 'mm', resolution: 0.01, error_mm: 0.008, hysteresis_mm: 0.003 },
  { unit: 'mm', resolution: 0.005, error_mm: 0.008, hysteresis_mm: 0.003 },
  { unit: 'mm', resolution: 0.002, error_mm: 0.005, hysteresis_mm: 0.002 },
  { unit: 'mm', resolution: 0.001, error_mm: 0.004, hysteresis_mm: 0.002 },
  { unit: 'mm', resolution: 0.0005, error_mm: 0.003, hysteresis_mm: 0.0015 },
  { unit: '[in_i]', resolution: 0.0005, error_mm: 0.008, hysteresis_mm: 0.003 },
  { unit: '[in_i]', resolution: 0.0001, error_mm: 0.005, hysteresis_mm: 0.002 },
  { unit: '[in_i]', resolution: 0.00005, error_mm: 0.004, hysteresis_mm: 0.002 },
  { unit: '[in_i]', resolution: 0.00002, error_mm: 0.003, hysteresis_mm: 0.0015 },
];

function oneOf<T>(choices: readonly T[], random: Random): T {
  const chosen = choices[Math.floor(random.next() * choices.length)];
  if (chosen === undefined) throw new RangeError('nothing to choose from');
  return chosen;
}

/** Any indicator from a coarse one to the finest, its real errors drawn within its stated ones. */
export function anyIndicator(random: Random): IndicatorTraits {
  const finish = oneOf(FINISHES, random);
  const travel_mm = random.uniform(1.5, 12);
  return {
    unit: finish.unit,
    resolution: finish.resolution,
    noise_mm: random.uniform(0, 2) * finish.resolution * MM_PER[finish.unit],
    hysteresis_mm: random.uniform(0, finish.hysteresis_mm),
    errorAt: errorCurve(finish.error_mm, random),
    statedError_mm: finish.error_mm,
    statedHysteresis_mm: finish.hysteresis_mm,
    travel_mm,
    sign: random.next() < 0.5 ? 1 : -1,
    zero_mm: random.uniform(0, travel_mm),
  };
}
