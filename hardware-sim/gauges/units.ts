/** UCUM codes, as files carry them. */
export type LengthUnit = 'mm' | '[in_i]';
export type TorqueUnit = 'N.m' | '[lbf_av].[in_i]';

/** 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). */
export const MM_PER: Readonly<Record<LengthUnit, number>> = { mm: 1, '[in_i]': 25.4 };

/** 1 lbf·in = 4.4482216152605 N × 0.0254 m exactly (same agreement and standard gravity). */
export const NM_PER: Readonly<Record<TorqueUnit, number>> = { 'N.m': 1, '[lbf_av].[in_i]': 4.4482216152605 * 0.0254 };

const decimalsOf = (resolution: number): number => Math.max(0, Math.ceil(-Math.log10(resolution) - 1e-9));

/** Decimals a display needs for this step: 0.0005 needs four, 0.01 two. */
export function displayDecimals(resolution: number): number {
  const fewest = decimalsOf(resolution);
  const whole = resolution * 10 ** fewest;
  return Math.abs(whole - Math.round(whole)) < 1e-6 ? fewest : fewest + 1;
}

/** Rounds to the display's step; the result is the decimal number shown, not a multiple with float dust on it. */
export function stepped(value: number, resolution: number): number {
  const places = 10 ** displayDecimals(resolution);
  const digits = Math.round(Math.round(value / resolution) * resolution * places);
  // A display may show -0.00; a number does not.
  return digits === 0 ? 0 : digits / places;
}

export const otherLength = (unit: LengthUnit): LengthUnit => (unit === 'mm' ? '[in_i]' : 'mm');
export const otherTorque = (unit: TorqueUnit): TorqueUnit => (unit === 'N.m' ? '[lbf_av].[in_i]' : 'N.m');

/** The step a display would have near this one: the nearest of 1, 2, 5, 10 by ratio. */
export function roundStep(step: number): number {
  const power = Math.floor(Math.log10(step));
  const away = (tidy: number): number => Math.abs(Math.log((tidy * 10 ** power) / step));
  const tidy = [1, 2, 5, 10].reduce((best, next) => (away(next) < away(best) ? next : best));
  return Number(`${tidy}e${power}`);
}
