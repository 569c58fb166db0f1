import type { Dimension } from './units.ts';
import { fromInside, type Unit, units } from './units.ts';

/** Which family of units the technician wants to see. What is stored never changes with it. */
export type UnitSystem = 'metric' | 'inch';

const shownIn: Record<UnitSystem, Record<Dimension, Unit>> = {
  metric: { length: units.mm, torque: units.Nm, force: units.N, angle: units.deg },
  inch: { length: units.in, torque: units.inLb, force: units.lbf, angle: units.deg },
};

/** Decimals that hide nothing a shop gauge resolves: 0.001 mm, 0.0001 in, 0.01 N·m, 0.1 in-lb, 0.1°. */
const usualDecimals: Record<UnitSystem, Record<Dimension, number>> = {
  metric: { length: 3, torque: 2, force: 1, angle: 1 },
  inch: { length: 4, torque: 1, force: 2, angle: 1 },
};

export interface Shown {
  /** The digits with a true minus sign and a fixed number of decimals. */
  readonly digits: string;
  readonly unit: string;
}

/**
 * Above this a torque tightens a fastener and is read in lb-ft; below it, it turns a bearing and is read in in-lb.
 * 20 lb-ft: no rotating torque comes near it and no fastener in an axle lies below (common practice).
 */
const fastenersFrom_Nm = 20 * units.ftLb.factor;

const unitFor = (inside: number, dimension: Dimension, system: UnitSystem): Unit =>
  system === 'inch' && dimension === 'torque' && Math.abs(inside) >= fastenersFrom_Nm
    ? units.ftLb
    : shownIn[system][dimension];

/** The unit in which `dimension` is shown under `system`. */
export const unitShown = (dimension: Dimension, system: UnitSystem): Unit => shownIn[system][dimension];

/**
 * A value used inside (mm, N·m, rad) as a person reads it.
 * @param resolution the gauge's resolution in the same inside unit; decides the decimals so that none is hidden or invented.
 */
export function show(inside: number, dimension: Dimension, system: UnitSystem, resolution?: number): Shown {
  const unit = unitFor(inside, dimension, system);
  const decimals =
    resolution === undefined ? usualDecimals[system][dimension] : decimalsFor(fromInside(resolution, unit));
  const rounded = fromInside(inside, unit).toFixed(decimals);
  const digits = Number(rounded) === 0 ? rounded.replace('-', '') : rounded.replace('-', '−');
  return { digits, unit: unit.symbol };
}

/** As {@link show}, in one string: "0.210 mm". */
export function showText(inside: number, dimension: Dimension, system: UnitSystem, resolution?: number): string {
  const { digits, unit } = show(inside, dimension, system, resolution);
  return unit === '°' ? `${digits}${unit}` : `${digits} ${unit}`;
}

/** A size as a catalogue gives it, without noughts behind: "205 mm", "215.9 mm", "8.5 in". */
export function sizeText(size_mm: number, system: UnitSystem): string {
  const unit = shownIn[system].length;
  return `${Number(fromInside(size_mm, unit).toFixed(system === 'metric' ? 1 : 3))} ${unit.symbol}`;
}

/** The reading that a doubt belongs to, in the inside unit of its dimension. */
interface Doubted {
  readonly value: number;
  readonly dimension: Dimension;
  readonly system: UnitSystem;
}

/**
 * A doubt (U95, inside unit) in the unit in which its reading is shown, with more decimals where the usual ones would make
 * nothing of it: no reading is without doubt.
 */
export function showDoubt(U95: number, { value, dimension, system }: Doubted): string {
  const unit = unitFor(value, dimension, system);
  const shown = fromInside(U95, unit);
  const usual = shown.toFixed(usualDecimals[system][dimension]);
  return `${Number(usual) === 0 && shown > 0 ? shown.toFixed(decimalsFor(shown)) : usual} ${unit.symbol}`;
}

/** Enough decimals to write a step of this size: 0.01 → 2, 0.0005 → 4, 0.000393… (0.01 mm in inches) → 4. */
function decimalsFor(step: number): number {
  if (!(step > 0)) return 3;
  for (let decimals = 0; decimals < 7; decimals += 1) {
    const scaled = step * 10 ** decimals;
    if (Math.abs(scaled - Math.round(scaled)) < 1e-6 * scaled && Math.round(scaled) >= 1) return decimals;
    if (scaled >= 3) return decimals;
  }
  return 7;
}

/** Decimals of a number as a person writes it: 0.0005 has 4. */
export function decimalsWritten(value: number): number {
  const [digits = '', exponent = '0'] = String(value).split('e');
  return Math.max(0, (digits.split('.')[1] ?? '').length - Number(exponent));
}
