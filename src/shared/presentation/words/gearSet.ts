import type { MakeUp } from '../../axle/makeUp.ts';
import { sizeText, type UnitSystem } from '../../basics/show.ts';

/** "11 and 41 teeth, ring gear 8.5 in"; the size only where it is known. */
export function gearSetWords(
  { pinionTeeth, ringTeeth, outerDiameter_mm }: Pick<MakeUp, 'pinionTeeth' | 'ringTeeth' | 'outerDiameter_mm'>,
  system: UnitSystem,
): string {
  const size = outerDiameter_mm === undefined ? '' : `, ring gear ${sizeText(outerDiameter_mm, system)}`;
  return `${pinionTeeth} and ${ringTeeth} teeth${size}`;
}
