import type { Capture } from '../../shared/job/captures/capture.ts';
import type { GaugeSeen } from '../../shared/job/records/gauge.ts';
import type { CaptureSettings, MeasuredResult, Stretch } from '../../shared/job/records/measurement.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { JournalRow } from '../journal/entry.ts';
import type { Journal } from '../journal/journal.ts';
import { listened, measuredFrom } from '../journal/measured.ts';

/**
 * Computes a measurement anew from the readings on disk, with the same code that ran live on the screen.
 * What is recorded therefore never rests on the renderer. The stretch is kept whole from then on.
 */
export function remeasure(
  journal: Journal,
  stretch: Stretch,
  settings: CaptureSettings,
  gauge: GaugeSeen,
): Result<MeasuredResult> {
  const rowsOf = rowsOnDisk(journal, stretch);
  if (!rowsOf.ok) return rowsOf;
  const result = measuredFrom({ stretch, settings, gauge }, rowsOf.value);
  if (!result.ok) return result;
  const kept = journal.keep(stretch.from, stretch.to, 'measurement');
  return kept.ok ? result : kept;
}

/** What was heard in a stretch, taken by a fresh capture as the screen's took it: nothing of what lies in its breaks. */
export function listenAgain(
  journal: Journal,
  stretch: Stretch,
  settings: CaptureSettings,
  gauge: GaugeSeen,
): Result<{ readonly capture: Capture; readonly readings: number }> {
  const rowsOf = rowsOnDisk(journal, stretch);
  return rowsOf.ok ? listened({ stretch, settings, gauge }, rowsOf.value) : rowsOf;
}

function rowsOnDisk(
  journal: Journal,
  { gauge, from, to }: Stretch,
): Result<(first: number, last: number) => Iterable<JournalRow>> {
  const flushed = journal.flush();
  if (!flushed.ok) return flushed;
  if (to < from || to > journal.durable()) return fail(notOnDisk({ from, to }));
  return ok((first, last) => journal.stretch(gauge, first, last, { bytes: false }));
}

const notOnDisk = ({ from, to }: Pick<Stretch, 'from' | 'to'>): Problem => ({
  kind: 'not-on-disk',
  field: 'stretch',
  sentence: `Readings ${from} to ${to} are not in the journal.`,
  remedy: 'Measure again.',
});
