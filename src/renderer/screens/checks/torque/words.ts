import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { TorqueResult } from '../../../../shared/job/records/measurement.ts';
import { isReadOnce } from '../../../../shared/job/captures/readOnce.ts';
import { orReason } from '../../../../shared/presentation/words/results.ts';
import { flagSentences } from '../../../words/flags.ts';
import { isNone, type OrNone } from '../../../../shared/basics/result.ts';

/** "1.84 N·m running, ± 0.06 N·m, over whole turns. Breakaway 2.60 N·m, ripple 0.21 N·m." */
export function torqueWords(result: TorqueResult, units: UnitSystem): string {
  if (isReadOnce(result)) return readOnceWords(result, units);
  const shown = (value: number): string => showText(value, 'torque', units);
  const named = (name: string, value: OrNone<number>): readonly string[] =>
    isNone(value) ? [] : [`${name} ${shown(value)}`];
  const running = isNone(result.running_Nm) ? 'No running torque' : `${shown(result.running_Nm)} running`;
  const doubt = isNone(result.U95_Nm) || result.U95_Nm === 0 ? '' : `, ± ${shown(result.U95_Nm)}`;
  const rest = [...named('breakaway', result.breakaway_Nm), ...named('ripple', result.ripple_Nm)].join(', ');
  const seating = result.flags.includes('seating') ? seatingWords(result, shown) : '';
  const zero = result.flags.includes('zero-taken-off') ? zeroWords(result, shown) : '';
  const told = new Set([...(seating === '' ? [] : ['seating']), ...(zero === '' ? [] : ['zero-taken-off'])]);
  const flags = [zero, seating, flagSentences(result.flags.filter((flag) => !told.has(flag)))]
    .map((words) => (words === '' ? '' : ` ${words}`))
    .join('');
  return `${running}${doubt}, ${over[result.average]}.${rest === '' ? '' : ` ${rest.charAt(0).toUpperCase()}${rest.slice(1)}.`}${flags}`;
}

/** "1.8 N·m running, ± 0.1 N·m. Read once off a dial …": one number, and nothing of the other. */
function readOnceWords(result: TorqueResult, units: UnitSystem): string {
  const { basis } = result.basis;
  const [value, doubt] =
    basis === 'starting' ? [result.breakaway_Nm, result.breakawayU95_Nm] : [result.running_Nm, result.U95_Nm];
  const within = isNone(doubt) ? '' : `, ± ${showText(doubt, 'torque', units)}`;
  return `${orReason(value, 'torque', units)} ${basis}${within}. ${flagSentences(result.flags)}`;
}

const over: Readonly<Record<TorqueResult['average'], string>> = {
  'whole-turns': 'over whole turns',
  'part-turn': 'from part of a turn',
  time: 'as an average over time',
  'read-once': 'read once off a dial',
};

/** The zero that was taken off, in figures. */
function zeroWords({ zero_Nm }: TorqueResult, shown: (value: number) => string): string {
  if (zero_Nm === undefined || isNone(zero_Nm)) return '';
  return `At rest the gauge read ${shown(zero_Nm)}; that is taken off.`;
}

/** Bearings that still seat, in figures: by how much the torque went from the first turn to the last. */
function seatingWords({ drift_Nm, turns }: TorqueResult, shown: (value: number) => string): string {
  if (isNone(drift_Nm)) return '';
  const way = drift_Nm < 0 ? 'fell' : 'rose';
  return `It ${way} by ${shown(Math.abs(drift_Nm))} over ${turns} turns, so the bearings still seat: turn on until it settles.`;
}
