import { show, type UnitSystem, unitShown } from '../../basics/show.ts';
import { fromInside, toInside, type Dimension } from '../../basics/units.ts';

/** What is drawn from where to where, in the unit used inside (mm, N·m). */
export interface Range {
  readonly low: number;
  readonly high: number;
}

/** A lower limit, an upper limit, or both. */
export interface Limits {
  readonly min?: number;
  readonly max?: number;
}

/** The values of a set of limits that are there. */
export const limitValues = (limits: Limits | undefined): readonly number[] =>
  [limits?.min, limits?.max].filter((value) => value !== undefined);

/** The largest of 1, 2, 5 times a power of ten that is not above `size`. */
export function niceStep(size: number): number {
  if (!(size > 0) || !Number.isFinite(size)) return 1;
  const power = 10 ** Math.floor(Math.log10(size) + 1e-9);
  const share = size / power + 1e-9;
  return power * (share >= 5 ? 5 : share >= 2 ? 2 : 1);
}

/** Room on either side of the limits, as a share of the window, so that just outside still lies on the picture. */
const roomBeside = 0.2;
/** Room beside the outermost value, as a share of everything shown. */
const roomAround = 0.08;
/** What the whole picture spans at least, in the unit shown: a steady gauge must not look like a mountain. */
const leastSpan: Readonly<Record<Dimension, Readonly<Record<UnitSystem, number>>>> = {
  length: { metric: 0.02, inch: 0.001 },
  torque: { metric: 0.5, inch: 5 },
  force: { metric: 2, inch: 0.5 },
  angle: { metric: 1, inch: 1 },
};

/**
 * A range of round numbers (in the unit shown) that holds every value and the limits with room beside them.
 * It begins below zero only where a value does.
 */
export function rangeFor(
  values: readonly number[],
  limits: Limits | undefined,
  dimension: Dimension,
  system: UnitSystem,
): Range {
  const unit = unitShown(dimension, system);
  const shown = [...values, ...limitValues(limits)].map((value) => fromInside(value, unit));
  const [least, most] = shown.length === 0 ? [0, 0] : [smallest(shown), largest(shown)];
  const room = Math.max(
    (most - least) * roomAround,
    windowOf(limits, unit) * roomBeside,
    leastSpan[dimension][system] / 2,
  );
  const step = niceStep((most - least + 2 * room) / 8);
  const low = Math.floor((least - room) / step + 1e-9) * step;
  const high = Math.ceil((most + room) / step - 1e-9) * step;
  return { low: toInside(least >= 0 ? Math.max(0, low) : low, unit), high: toInside(high, unit) };
}

function windowOf(limits: Limits | undefined, unit: { readonly factor: number }): number {
  if (limits?.min === undefined || limits.max === undefined) return 0;
  return (limits.max - limits.min) / unit.factor;
}

/** Without spreading, which overflows the stack for a long trace. */
export const smallest = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Infinity);
export const largest = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), -Infinity);

/** Decimals of a scale: coarser than a reading's, because a scale is only read off. */
const scaleDecimals: Readonly<Record<Dimension, Readonly<Record<UnitSystem, number>>>> = {
  length: { metric: 2, inch: 3 },
  torque: { metric: 1, inch: 0 },
  force: { metric: 0, inch: 1 },
  angle: { metric: 0, inch: 0 },
};

/**
 * The values of a scale as digits, all with the same decimals: those usual for a scale, and as many more as the
 * values need to be written fully (a limit of 0.125 mm keeps its 5). Never more than a reading's.
 */
export function digitsOf(values: readonly number[], dimension: Dimension, system: UnitSystem): readonly string[] {
  const full = values.map((value) => show(value, dimension, system).digits);
  const needed = full.map((digits) => digits.replace(/0+$/u, '').split('.')[1]?.length ?? 0);
  const decimals = Math.max(scaleDecimals[dimension][system], ...needed);
  return full.map((digits) => shortened(digits, decimals));
}

function shortened(digits: string, decimals: number): string {
  const [whole = '', part = ''] = digits.split('.');
  return part === '' || decimals === 0 ? whole : `${whole}.${part.slice(0, decimals)}`;
}

/** Where a value lies between the ends of a range, 0 at low and 1 at high. Not clamped. */
export const shareOf = (value: number, range: Range): number => (value - range.low) / (range.high - range.low);
