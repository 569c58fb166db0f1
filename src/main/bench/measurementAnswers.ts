import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { type Gauge, type GaugeSeen, gaugeSeenOf } from '../../shared/job/records/gauge.ts';
import type { CaptureSettings, MeasuredResult, Stretch } from '../../shared/job/records/measurement.ts';
import type { Deed } from '../../shared/job/records/notebook.ts';
import { judgeGaugeCheck } from '../../shared/job/records/gaugeCheck.ts';
import type { CheckId } from '../../shared/job/records/checkIds.ts';
import { checkOf, streamOf } from '../../shared/job/checks/checks.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Journal } from '../journal/journal.ts';
import type { GaugeChecks } from '../store/gaugeChecks.ts';
import type { GaugeRecords } from '../store/gaugeRecords.ts';
import type { Identity } from '../store/identity.ts';
import type { LooseMeasurements } from '../store/looseMeasurements.ts';
import type { UnfinishedStore } from '../store/unfinished.ts';
import { misplaced } from './buildAnswers.ts';
import { recordedAlready } from './recordedAlready.ts';
import { remeasure } from './remeasure.ts';
import { type Desk, instant, readBuild, writeEntry } from './writing.ts';

export interface MeasuringDesk extends Desk {
  readonly journal: Journal;
  readonly gaugeRecords: GaugeRecords;
  readonly loose: LooseMeasurements;
  readonly unfinished: UnfinishedStore;
  readonly identity: Identity;
  readonly gaugeChecks: GaugeChecks;
}

type Names =
  | 'measurements.sleeve-step'
  | 'measurements.record'
  | 'measurements.keep-loose'
  | 'measurements.loose'
  | 'measurements.adopt';

/** Everything that turns stretches of the journal into measurements. */
export function measurementAnswers(desk: MeasuringDesk): Pick<BenchAnswers, Names> {
  return {
    'measurements.record': async ({ build, by, assembly, check, stretch, settings }) => {
      const notebook = readBuild(desk, build);
      if (!notebook.ok) return notebook;
      const measured = measure(desk, stretch, settings);
      if (!measured.ok) return measured;
      const written = record(
        desk,
        build,
        by,
        measuredDeed(assembly, check, measured.value, measured.value.stretch, settings),
      );
      // A note left behind offers stations that are recorded already: a nuisance, not a loss, so it may fail.
      if (written.ok) desk.unfinished.forget({ assembly, check });
      return written;
    },
    'measurements.sleeve-step': async ({ build, by, assembly, stretch, settings, ...nut }) => {
      const notebook = readBuild(desk, build);
      if (!notebook.ok) return notebook;
      const measured = measure(desk, stretch, settings);
      if (!measured.ok) return measured;
      const { gauge, result } = measured.value;
      if (result.kind !== 'torque') return fail(noTorque);
      const how = { kind: 'streamed', gauge, stretch, settings } as const;
      const deed: Deed = { kind: 'sleeve-step', assembly, how, result, ...nut };
      const problem = misplaced(notebook.value, deed);
      return problem === undefined ? writeEntry(desk, build, by, deed) : fail(problem);
    },
    'measurements.keep-loose': async ({ stretch, settings }) => {
      const measured = measure(desk, stretch, settings);
      if (!measured.ok) return measured;
      return desk.loose.add({
        id: desk.newId(),
        at: instant(desk.clock),
        settings,
        ...measured.value,
      });
    },
    'measurements.loose': async ({ before }) => ok([...desk.loose.list(before)]),
    'measurements.adopt': async ({ build, by, loose, assembly, check }) => {
      const kept = desk.loose.read(loose);
      if (kept === undefined) return fail(noLoose(loose));
      const written = record(desk, build, by, measuredDeed(assembly, check, kept, kept.stretch, kept.settings));
      if (!written.ok) return written;
      const noted = desk.loose.keepIn(loose, build);
      return noted.ok ? written : noted;
    },
  };
}

interface Measured {
  readonly gauge: GaugeSeen;
  readonly stretch: Stretch;
  readonly result: MeasuredResult;
}

function measure(desk: MeasuringDesk, stretch: Stretch, settings: CaptureSettings): Result<Measured> {
  const gauge = desk.gaugeRecords.read(stretch.gauge);
  if (gauge === undefined) return fail(noGauge(stretch.gauge));
  const seen = { ...gaugeSeenOf(gauge), ...failedCheck(desk, gauge) };
  const result = remeasure(desk.journal, stretch, settings, seen);
  if (!result.ok) return result;
  // Row numbers mean something in this bench's journal alone.
  return ok({ gauge: seen, stretch: { ...stretch, bench: desk.identity.bench.id }, result: result.value });
}

/** The last check, where it found something wrong with the gauge: a number taken with it says so for ever. */
function failedCheck({ gaugeChecks }: MeasuringDesk, gauge: Gauge): Pick<GaugeSeen, 'failedCheck'> {
  const last = gaugeChecks.last(gauge.id);
  if (last === undefined) return {};
  const { off, spread, why } = judgeGaugeCheck(last, gauge);
  return why === undefined ? {} : { failedCheck: { at: last.at, off, spread, why } };
}

const measuredDeed = (
  assembly: string,
  check: CheckId,
  measured: Pick<Measured, 'gauge' | 'result'>,
  stretch: Stretch,
  settings: CaptureSettings,
): Extract<Deed, { kind: 'measured' }> => ({
  kind: 'measured',
  assembly,
  check,
  how: { kind: 'streamed', gauge: measured.gauge, stretch, settings },
  result: measured.result,
});

function record(
  desk: MeasuringDesk,
  build: string,
  by: string,
  deed: Extract<Deed, { kind: 'measured' }>,
): ReturnType<typeof writeEntry> {
  const notebook = readBuild(desk, build);
  if (!notebook.ok) return notebook;
  const problem = misplaced(notebook.value, deed) ?? (answersBy(deed) ? undefined : wrongCheck(deed));
  if (problem !== undefined) return fail(problem);
  return recordedAlready(notebook.value, deed) ?? writeEntry(desk, build, by, deed);
}

export const noGauge = (gauge: string): Problem => ({
  kind: 'no-gauge',
  field: 'gauge',
  sentence: `There is no gauge ${gauge} in this data folder.`,
  remedy: 'Enter the gauge first, with its resolution.',
});

const noTorque: Problem = {
  kind: 'wrong-check',
  field: 'settings',
  sentence: 'A step on a crush sleeve is read as a torque.',
  remedy: 'Read the rotating torque of the pinion after the step.',
};

const noLoose = (loose: string): Problem => ({
  kind: 'no-measurement',
  field: 'loose',
  sentence: `There is no kept measurement ${loose}.`,
  remedy: 'Choose one from the list.',
});

/** Whether what was taken from a gauge is how this check can be answered. */
const answersBy = ({ check, how }: Extract<Deed, { kind: 'measured' }>): boolean =>
  how.kind === 'streamed' && streamOf[checkOf(check).method] === how.settings.kind;

const wrongCheck = (deed: Extract<Deed, { kind: 'measured' }>): Problem => ({
  kind: 'wrong-check',
  field: 'check',
  sentence: `A ${deed.result.kind} measurement cannot stand for "${checkOf(deed.check).title}".`,
  remedy: 'Choose the check that was measured.',
});
