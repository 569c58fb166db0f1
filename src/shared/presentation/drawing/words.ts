import { showText, type UnitSystem } from '../../basics/show.ts';
import type { Dimension } from '../../basics/units.ts';
import type { Limits } from './scale.ts';

/** "Window 0.200 mm to 0.300 mm.", or the one limit there is, or nothing. */
export function windowWords(limits: Limits | undefined, system: UnitSystem, dimension: Dimension = 'length'): string {
  const shown = (value: number): string => showText(value, dimension, system);
  if (limits?.min !== undefined && limits.max !== undefined) {
    return `Window ${shown(limits.min)} to ${shown(limits.max)}.`;
  }
  if (limits?.max !== undefined) return `At most ${shown(limits.max)}.`;
  return limits?.min === undefined ? '' : `At least ${shown(limits.min)}.`;
}
