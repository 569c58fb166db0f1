import { armShare, pullScale } from '../../measuring/torque/pullScale.ts';
import { rectangular } from '../../measuring/uncertainty/uncertainty.ts';
import { mm } from '../../basics/quantity.ts';
import { toInside, type Unit, unitNamed } from '../../basics/units.ts';
import { insideOf } from '../../basics/recorded.ts';
import type { Gauge, GaugeSeen } from '../records/gauge.ts';

type ArmOf = Pick<GaugeSeen, 'arm'>;

/** The arm of a pull scale with its doubt: a stated ± is worth its half-width over √3. */
const armOf = ({ arm }: ArmOf) =>
  arm === undefined
    ? undefined
    : {
        length: mm(insideOf(arm.length)),
        u: mm(arm.within === undefined ? 0 : rectangular(insideOf(arm.within))),
      };

/** Whether this gauge is a pull scale: it reads a force. */
export const isPullScale = ({ resolution }: Pick<GaugeSeen, 'resolution'>): boolean =>
  unitNamed(resolution.unit)?.dimension === 'force';

/** Whether a gauge of this kind reads such a thing: an indicator lengths, a torque gauge torques or, over its arm, forces. */
export const readsKind = (kind: Gauge['kind'], { dimension }: Unit): boolean =>
  kind === 'typed' || (kind === 'indicator') === (dimension === 'length');

/** A value as measuring takes it: a length, a torque, or the torque that a force makes at the arm; undefined for a force without arm. */
export function measuredInside(value: number, unit: Unit, gauge: ArmOf): number | undefined {
  const inside = toInside(value, unit);
  if (unit.dimension !== 'force') return inside;
  const arm = armOf(gauge);
  return arm === undefined ? undefined : pullScale(inside, arm);
}

/** A typed figure of a gauge (its resolution, its stated error) on the same terms; 0 where a force has no arm. */
export function figureInside(typed: GaugeSeen['resolution'], gauge: ArmOf): number {
  const unit = unitNamed(typed.unit);
  return unit === undefined ? 0 : (measuredInside(typed.value, unit, gauge) ?? 0);
}

/** What the arm of a pull scale leaves open, as a share of the torque; undefined for any other gauge. */
export function armDoubt(gauge: ArmOf & Pick<GaugeSeen, 'resolution'>): number | undefined {
  const arm = armOf(gauge);
  return arm === undefined || !isPullScale(gauge) || arm.u === 0 ? undefined : armShare(arm);
}
