import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { TorqueResult } from '../../../../shared/job/records/measurement.ts';
import { flagSentences } from '../../../words/flags.ts';
import { isNone, type OrNone } from '../../../../shared/basics/result.ts';

/** "1.84 N·m running, ± 0.06 N·m, over whole turns. Breakaway 2.60 N·m, ripple 0.21 N·m." */
export function torqueWords(result: TorqueResult, units: UnitSystem): string {
  const shown = (value: number): string => showText(value, 'torque', units);
  const named = (name: string, value: OrNone<number>): readonly string[] =>
    isNone(value) ? [] : [`${name} ${shown(value)}`];
  const running = isNone(result.running_Nm) ? 'No running torque' : `${shown(result.running_Nm)} running`;
  const doubt = isNone(result.U95_Nm) || result.U95_Nm === 0 ? '' : `, ± ${shown(result.U95_Nm)}`;
  const over = result.average === 'whole-turns' ? 'over whole turns' : 'as an average over time';
  const rest = [...named('breakaway', result.breakaway_Nm), ...named('ripple', result.ripple_Nm)].join(', ');
  const seating = result.flags.includes('seating') ? seatingWords(result, shown) : '';
  const others = result.flags.filter((flag) => seating === '' || flag !== 'seating');
  const flags = [seating, flagSentences(others)].map((words) => (words === '' ? '' : ` ${words}`)).join('');
  return `${running}${doubt}, ${over}.${rest === '' ? '' : ` ${rest.charAt(0).toUpperCase()}${rest.slice(1)}.`}${flags}`;
}

/** Bearings that still seat, in figures: by how much the torque went from the first turn to the last. */
function seatingWords({ drift_Nm, turns }: TorqueResult, shown: (value: number) => string): string {
  if (isNone(drift_Nm)) return '';
  const way = drift_Nm < 0 ? 'fell' : 'rose';
  return `It ${way} by ${shown(Math.abs(drift_Nm))} over ${turns} turns, so the bearings still seat: turn on until it settles.`;
}
