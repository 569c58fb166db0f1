import type { Heard } from '../../shared/gauges/heard.ts';
import { type Capture, type CaptureEvent, startCapture, streamItem } from '../../shared/job/captures/capture.ts';
import type { GaugeSeen } from '../../shared/job/records/gauge.ts';
import {
  type CaptureSettings,
  type MeasuredResult,
  partsOf,
  type StationResult,
  type Stretch,
} from '../../shared/job/records/measurement.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { JournalRow } from './entry.ts';

/** A measurement that was streamed: its rows in some journal, how it was taken, and with what. */
interface Streamed {
  readonly stretch: Pick<Stretch, 'gauge' | 'from' | 'to' | 'breaks'>;
  readonly settings: CaptureSettings;
  readonly gauge: GaugeSeen;
}

/** The rows of the journal from one to another, both included, in order. */
type RowsOf = (from: number, to: number) => Iterable<JournalRow>;

/**
 * What journal rows give as a measurement, by the same code that ran live on the screen: when it is recorded, and years later
 * when a certificate is checked.
 */
export function measuredFrom(streamed: Streamed, rowsOf: RowsOf): Result<MeasuredResult> {
  const heard = listened(streamed, rowsOf);
  if (!heard.ok) return heard;
  const { capture, readings, rocks } = heard.value;
  if (readings === 0) return fail(nothingThere(streamed.gauge));
  const result = capture.finish();
  if (result.kind !== 'backlash') return ok(result);
  if (result.stations.length === 0) return fail(noStation);
  return ok({ ...result, stations: result.stations.map((station) => withRocks(station, rocks)) });
}

/** The rocks of each station as they were counted, by its number. */
type Rocks = ReadonlyMap<number, readonly number[]>;

/** Only where as many were counted as its value rests on: a station that was broken off has counted others before. */
function withRocks(station: StationResult, rocks: Rocks): StationResult {
  const each = rocks.get(station.number) ?? [];
  return each.length > 0 && each.length === station.rocks ? { ...station, each_mm: [...each] } : station;
}

/** What was heard in a stretch, taken by a fresh capture as the screen's took it: nothing of what lies in its breaks. */
export function listened(
  { stretch, settings, gauge }: Streamed,
  rowsOf: RowsOf,
): Result<{ readonly capture: Capture; readonly readings: number; readonly rocks: Rocks }> {
  const capture = startCapture(settings, gauge);
  if (!capture.ok) return capture;
  let readings = 0;
  const rocks = new Map<number, number[]>();
  for (const part of partsOf(stretch)) {
    if (part.from > stretch.from) capture.value.breakOff();
    for (const row of rowsOf(part.from, part.to)) {
      const heard = heardOf(row);
      if (heard === undefined) continue;
      const item = streamItem(heard, settings.kind, gauge);
      if (!item.ok) return item;
      if (item.value === undefined) continue;
      readings += 1;
      for (const event of capture.value.step(item.value)) countRock(rocks, event);
    }
  }
  return ok({ capture: capture.value, readings, rocks });
}

function countRock(rocks: Map<number, number[]>, event: CaptureEvent): void {
  if (event.kind === 'taken-anew') rocks.delete(event.station);
  if (event.kind !== 'rock-counted') return;
  const before = event.rocks === 1 ? [] : (rocks.get(event.station) ?? []);
  rocks.set(event.station, [...before, event.value]);
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
