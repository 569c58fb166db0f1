import type { Measurement } from '../../../../shared/job/records/build.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import type { How } from '../../../../shared/job/records/measurement.ts';
import { calibrationOn } from '../../../../shared/job/records/gauge.ts';
import { useSession } from '../../../stores/session.ts';
import { dayWords, timeWords } from '../../../words/days.ts';
import { typedText } from '../../../../shared/presentation/words/results.ts';

/** By whom, when and with what; a typed reading says so wherever it appears. */
export function HowTaken({ measurement }: { readonly measurement: Measurement }) {
  const units = useSession((session) => session.units);
  const { how, at, by } = measurement;
  return (
    <p className="quiet">
      {timeWords(at)}, {by}.{' '}
      {how.kind === 'streamed' ? `Gauge ${how.gauge.label}${calibrationWords(how.gauge, at)}.` : undefined}
      {how.kind === 'streamed' && how.gauge.failedCheck !== undefined
        ? ` It failed its check on ${dayWords(how.gauge.failedCheck.at)}: ${how.gauge.failedCheck.why}`
        : undefined}
      {how.kind === 'typed' ? typedWords(how, units, at) : undefined}
      {how.kind === 'seen' ? 'Seen by the technician.' : undefined}
    </p>
  );
}

function typedWords(how: Extract<How, { kind: 'typed' }>, units: UnitSystem, at: string): string {
  const calibrated = how.gauge === undefined ? '' : calibrationWords(how.gauge, at);
  return `Typed, read off ${how.tool} with a resolution of ${typedText(how.resolution, units)}${calibrated}.`;
}

function calibrationWords(gauge: Parameters<typeof calibrationOn>[0], at: string): string {
  const state = calibrationOn(gauge, at.slice(0, 10));
  if (state === 'past' && gauge.dueOn !== undefined) return `, past its calibration since ${dayWords(gauge.dueOn)}`;
  return gauge.calibratedOn === undefined
    ? ', calibration not entered'
    : `, calibrated ${dayWords(gauge.calibratedOn)}`;
}
