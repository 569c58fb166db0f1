import type { HandAction } from '../../../../shared/contract/bench.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { CaptureSettings } from '../../../../shared/job/records/measurement.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { type LiveGauges, gaugesFor, type StreamKind } from '../../../stores/gauges.ts';
import type { Run } from '../../../live/run.ts';

/** A spread lies between two states of one build, and means nothing without it. */
export type What = Exclude<CaptureSettings['kind'], 'spread'>;

export const whatOptions: readonly { readonly value: What; readonly words: string }[] = [
  { value: 'backlash', words: 'Backlash' },
  { value: 'runout', words: 'Runout' },
  { value: 'play', words: 'End play' },
  { value: 'torque', words: 'Torque' },
];

/** With no build there is no limit and no basis to fit: along the turn at the heel, running, said as it is kept. */
export const looseSettings: Readonly<Record<What, CaptureSettings>> = {
  backlash: { kind: 'backlash', basis: { direction: 'along-rotation', at: 'heel' }, nextBy: 'itself' },
  runout: { kind: 'runout', mode: 'continuous' },
  play: { kind: 'play' },
  torque: { kind: 'torque', basis: { basis: 'running', seal: 'in', bearings: 'used' } },
};

/** What to do, before there is a number. */
export const tellFirst: Readonly<Record<What, string>> = {
  backlash: 'Rock it there and back',
  runout: 'Turn it once',
  play: 'Push and pull, held at each end',
  torque: 'Turn steadily',
};

/** The gauge that was chosen decides; without one the live gauge does: torque when only a torque gauge sends, else backlash. */
export const firstTry = (seen: LiveGauges, chosen: string | undefined): What => {
  const kind = seen.gauges.find(({ id }) => id === chosen)?.kind;
  if (kind !== undefined && kind !== 'typed') return kind === 'torque' ? 'torque' : 'backlash';
  const sends = (kind: StreamKind): boolean => gaugesFor(seen, kind).some((gauge) => seen.live.has(gauge.id));
  return sends('torque') && !sends('indicator') ? 'torque' : 'backlash';
};

export const handFor: Readonly<Record<What, HandAction>> = {
  backlash: { do: 'rock', stations: 1 },
  runout: { do: 'turn-ring', surface: 'ring-gear' },
  play: { do: 'push-case' },
  torque: { do: 'turn-pinion', what: 'pinion' },
};

/** What there is to keep so far, in a line, or nothing yet. */
export function whatSo(run: Run | undefined, units: UnitSystem): string | undefined {
  if (run === undefined) return undefined;
  const last = run.stations.at(-1);
  if (last !== undefined) {
    const value = isNone(last.value) ? 'no number' : showText(last.value, 'length', units);
    if (run.settings.kind === 'play') return `End play ${value}`;
    return run.stations.length === 1 ? `Backlash ${value}` : `Station ${run.stations.length}: ${value}`;
  }
  if (run.result?.kind === 'runout' && !isNone(run.result.tir_mm))
    return `Runout ${showText(run.result.tir_mm, 'length', units)}`;
  if (run.result?.kind === 'torque' && !isNone(run.result.running_Nm))
    return `Running ${showText(run.result.running_Nm, 'torque', units)}`;
  return undefined;
}
