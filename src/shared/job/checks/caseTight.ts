import type { MeasuredResult } from '../records/measurement.ts';
import { isNone } from '../../basics/result.ts';

/**
 * Whether the case bearings were without play as found: felt by hand, or by an indicator whose reading is then more than its own
 * doubt can make. Undefined where nobody has said, or the readings came to no number.
 */
export function caseIsTight(result: MeasuredResult | undefined): boolean | undefined {
  if (result?.kind === 'confirmed') return result.yes;
  if (result?.kind !== 'play' || isNone(result.value_mm)) return undefined;
  return result.value_mm <= result.U95_mm;
}
