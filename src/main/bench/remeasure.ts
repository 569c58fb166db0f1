import type { Heard } from '../../shared/gauges/heard.ts';
import { type Capture, startCapture, streamItem } from '../../shared/job/captures/capture.ts';
import type { GaugeSeen } from '../../shared/job/records/gauge.ts';
import {
  type CaptureSettings,
  type MeasuredResult,
  partsOf,
  type Stretch,
} from '../../shared/job/records/measurement.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { JournalRow } from '../journal/entry.ts';
import type { Journal } from '../journal/journal.ts';

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
  const heard = listenAgain(journal, stretch, settings, gauge);
  if (!heard.ok) return heard;
  const { capture, readings } = heard.value;
  if (readings === 0) return fail(nothingThere(gauge));
  const result = capture.finish();
  if (result.kind === 'backlash' && result.stations.length === 0) return fail(noStation);
  const kept = journal.keep(stretch.from, stretch.to, 'measurement');
  return kept.ok ? ok(result) : kept;
}

/** What was heard in a stretch, taken by a fresh capture as the screen's took it: nothing of what lies in its breaks. */
export function listenAgain(
  journal: Journal,
  stretch: Stretch,
  settings: CaptureSettings,
  gauge: GaugeSeen,
): Result<{ readonly capture: Capture; readonly readings: number }> {
  const flushed = journal.flush();
  if (!flushed.ok) return flushed;
  if (stretch.to < stretch.from || stretch.to > journal.durable()) return fail(notOnDisk(stretch));
  const capture = startCapture(settings, gauge);
  if (!capture.ok) return capture;
  let readings = 0;
  for (const part of partsOf(stretch)) {
    if (part.from > stretch.from) capture.value.breakOff();
    for (const row of journal.stretch(stretch.gauge, part.from, part.to, { bytes: false })) {
      const heard = heardOf(row);
      if (heard === undefined) continue;
      const item = streamItem(heard, settings.kind, gauge);
      if (!item.ok) return item;
      if (item.value === undefined) continue;
      readings += 1;
      capture.value.step(item.value);
    }
  }
  return ok({ capture: capture.value, readings });
}

/** A journal row as a renderer hears it. Rows about the link itself (plugged in, silent) are not heard as readings. */
export function heardOf(row: JournalRow): Heard | undefined {
  if (row.kind === 'reading') return { seq: row.seq, gauge: row.gauge, t: row.t, value: row.value, unit: row.unit };
  if (row.kind === 'pedal' && (row.note === 'next' || row.note === 'again'))
    return { seq: row.seq, t: row.t, press: row.note };
  if (row.kind === 'unreadable')
    return { seq: row.seq, gauge: row.gauge, t: row.t, none: row.note, raw: printable(row.raw) };
  return undefined;
}

/** Raw bytes as text a person can look at: control characters by their names' code point, nothing lost to the terminal. */
export const printable = (raw: Uint8Array): string =>
  Array.from(raw.subarray(0, 100), (byte) =>
    byte >= 0x20 && byte < 0x7f ? String.fromCodePoint(byte) : `\\x${byte.toString(16).padStart(2, '0')}`,
  ).join('');

const notOnDisk = (stretch: Stretch): Problem => ({
  kind: 'not-on-disk',
  field: 'stretch',
  sentence: `Readings ${stretch.from} to ${stretch.to} are not in the journal.`,
  remedy: 'Measure again.',
});

const noStation: Problem = {
  kind: 'nothing-measured',
  sentence: 'No station is finished yet.',
  remedy: 'Rock the gear until the first station is done, then record.',
};

const nothingThere = (gauge: GaugeSeen): Problem => ({
  kind: 'nothing-measured',
  sentence: `No reading of ${gauge.label} lies in this stretch.`,
  remedy: 'Check that the gauge is plugged in and sends, then measure again.',
});
