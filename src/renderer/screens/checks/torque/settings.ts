import type { Assembly } from '../../../../shared/job/records/build.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { TorqueResult, CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import type { Limit, LimitedQuantity, SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import { torqueMismatch } from '../../../../shared/job/checks/judge.ts';
import { isNone, type OrNone } from '../../../../shared/basics/result.ts';
import type { Option } from '../../../parts/Choice.tsx';
import type { Run } from '../../../live/run.ts';

/** Seal and bearings are those of the assembly; only running or starting is a choice. */
export const torqueSettings = (assembly: Assembly, basis: 'running' | 'starting'): CaptureSettingsOf<'torque'> => ({
  kind: 'torque',
  basis: { basis, seal: assembly.seal, bearings: assembly.bearings },
});

export const torqueBases = [
  { value: 'running', words: 'Running' },
  { value: 'starting', words: 'Starting' },
] as const satisfies readonly Option<'running' | 'starting'>[];

/** Which of the two the limits for this quantity and state ask for. */
export function basisWanted(
  sheet: SpecSheet | undefined,
  quantity: LimitedQuantity | undefined,
  assembly: Assembly,
): 'running' | 'starting' {
  const starting = torqueSettings(assembly, 'starting').basis;
  const wanted = sheet?.limits.some((limit) => limit.quantity === quantity && torqueBasisFits(limit, starting));
  return wanted === true ? 'starting' : 'running';
}

const torqueBasisFits = (limit: Limit, basis: CaptureSettingsOf<'torque'>['basis']): boolean =>
  'basis' in limit && 'seal' in limit.basis && torqueMismatch(limit.basis, basis) === undefined;

/** The limit that may be held against this torque: same quantity, same state. */
export const torqueLimit = (
  sheet: SpecSheet | undefined,
  quantity: LimitedQuantity | undefined,
  basis: CaptureSettingsOf<'torque'>['basis'],
): Limit | undefined => sheet?.limits.find((limit) => limit.quantity === quantity && torqueBasisFits(limit, basis));

/** The torque that counts on its basis. */
export const countingTorque = (result: TorqueResult): OrNone<number> =>
  result.basis.basis === 'starting' ? result.breakaway_Nm : result.running_Nm;

/** The torque so far, once there is a number on the basis that counts. */
export const torqueResultOf = (run: Run | undefined): TorqueResult | undefined =>
  run?.result?.kind === 'torque' && !isNone(countingTorque(run.result)) ? run.result : undefined;

/** The running torque as a level on the trace: where the gauge read it, written with what its zero leaves of it. */
export function runningLevel(
  result: TorqueResult | undefined,
  units: UnitSystem,
): { readonly v: number; readonly words: string } | undefined {
  if (result === undefined || isNone(result.running_Nm)) return undefined;
  const zero = result.zero_Nm === undefined || isNone(result.zero_Nm) ? 0 : result.zero_Nm;
  return { v: result.running_Nm + zero, words: `running ${showText(result.running_Nm, 'torque', units)}` };
}
