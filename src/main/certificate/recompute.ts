import { isNone } from '../../shared/basics/result.ts';
import type { CertificateData } from '../../shared/job/certifying/certificateData.ts';
import type { Deed, DeedOf } from '../../shared/job/records/notebook.ts';
import type { MeasuredResult } from '../../shared/job/records/measurement.ts';
import { rowsFromCsv } from '../journal/csv.ts';
import { measuredFrom } from '../journal/measured.ts';
import { splitReadings } from './readings.ts';

/** What the readings inside give today, set beside what was recorded. */
type Recomputed =
  /** Every measurement with readings gives what was recorded. */
  | { readonly same: true; readonly measurements: number }
  /** One that does not, and by how much: a later program may measure otherwise. */
  | { readonly same: false; readonly difference: string; readonly withinU95: boolean }
  | { readonly none: 'no-readings' };

/**
 * Works every streamed measurement out again from the readings in the file. A difference is compared with the recorded U95:
 * code that has learned since moves a number by less, and a number that was put in by hand mostly by more.
 * @returns words instead where the file of readings is not the one that the data describe.
 */
export function recompute(data: CertificateData, csv: string): Recomputed | { readonly wrong: string } {
  const split = splitReadings(csv, data.readings);
  if ('wrong' in split) return split;
  let measurements = 0;
  let worst: Extract<Recomputed, { same: false }> | undefined;
  for (const { id, deed } of data.notebook) {
    if (!isStreamed(deed)) continue;
    const index = data.readings.stretches.findIndex(({ entries }) => entries.includes(id));
    const found = againOf(deed, split.parts[index] ?? [], id);
    if ('wrong' in found) return found;
    if ('difference' in found) worst = worst?.withinU95 === false ? worst : found;
    if (!('none' in found)) measurements += 1;
  }
  if (worst !== undefined) return worst;
  return measurements === 0 ? { none: 'no-readings' } : { same: true, measurements };
}

type Streamed = DeedOf<'measured'> & { readonly how: { readonly kind: 'streamed' } };
const isStreamed = (deed: Deed): deed is Streamed => deed.kind === 'measured' && deed.how.kind === 'streamed';

type Again = { readonly none: string } | { readonly same: true } | Extract<Recomputed, { same: false }>;

function againOf({ how, result, check }: Streamed, lines: readonly string[], id: string): Again | { wrong: string } {
  if (how.kind !== 'streamed' || lines.length === 0) return { none: 'no-readings' };
  const rows = rowsFromCsv(lines, how.stretch.gauge);
  if (!rows.ok) return { wrong: `the readings of entry ${id}: ${rows.problem.sentence}` };
  // Presses of the whole bench stand in every stretch; without a reading of its own gauge there is nothing to work out.
  if (!rows.value.some(({ kind }) => kind === 'reading')) return { none: 'no-readings' };
  const ends = [rows.value[0]?.seq ?? 0, rows.value.at(-1)?.seq ?? 0] as const;
  if (ends[0] < how.stretch.from || ends[1] > how.stretch.to)
    return { wrong: `the readings of entry ${id} lie outside its stretch` };
  const today = measuredFrom(how, (from, to) => rows.value.filter(({ seq }) => seq >= from && seq <= to));
  if (!today.ok)
    return { same: false, withinU95: false, difference: `${check} (entry ${id}): today ${today.problem.sentence}` };
  return differenceOf(result, today.value, `${check} (entry ${id})`);
}

/** Every figure that was recorded, beside today's; what today's code adds was not recorded and counts for nothing. */
function differenceOf(was: MeasuredResult, now: MeasuredResult, named: string): Again {
  const found = firstDifference(was, now, []);
  if (found === undefined) return { same: true };
  const { path, from, to } = found;
  const by = typeof from === 'number' && typeof to === 'number' ? ` (differs by ${shownDifference(to - from)})` : '';
  const difference = `${named}: ${path.join('.')} is ${shown(from)}, its readings give ${shown(to)} today${by}`;
  return { same: false, difference, withinU95: isWithin(was, now) };
}

/** Whether the figures a limit may judge moved by no more than their own U95. */
function isWithin(was: MeasuredResult, now: MeasuredResult): boolean {
  const [before, after] = [figuresOf(was), figuresOf(now)];
  if (before.length !== after.length) return false;
  return before.every(({ value, U95 }, index) => {
    const other = after[index]?.value;
    if (isNone(value) || other === undefined || isNone(other))
      return isNone(value) && other !== undefined && isNone(other);
    return !isNone(U95) && Math.abs(value - other) <= U95;
  });
}

function figuresOf(result: MeasuredResult): readonly Figure[] {
  switch (result.kind) {
    case 'backlash':
      return result.stations.map(({ value_mm, U95_mm }) => ({ value: value_mm, U95: U95_mm }));
    case 'runout':
      return [{ value: result.tir_mm, U95: result.U95_mm }];
    case 'torque':
      return [
        { value: result.running_Nm, U95: result.U95_Nm },
        { value: result.breakaway_Nm, U95: result.breakawayU95_Nm },
      ];
    default:
      return [];
  }
}

type Numberish = number | { readonly none: string };
interface Figure {
  readonly value: Numberish;
  readonly U95: Numberish;
}

interface Difference {
  readonly path: readonly string[];
  readonly from: unknown;
  readonly to: unknown;
}

function firstDifference(was: unknown, now: unknown, path: readonly string[]): Difference | undefined {
  if (typeof was === 'number' && typeof now === 'number' && isSame(was, now)) return undefined;
  if (Object.is(was, now)) return undefined;
  if (!isHolder(was) || !isHolder(now)) return { path, from: was, to: now };
  if (Array.isArray(was) && Array.isArray(now) && was.length !== now.length)
    return { path: [...path, 'length'], from: was.length, to: now.length };
  for (const key of Object.keys(was)) {
    const found = firstDifference(was[key], now[key], [...path, key]);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** Sines and roots may differ in their last digit between machines. */
const isSame = (one: number, other: number): boolean =>
  Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one), Math.abs(other));

const isHolder = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/** Two digits say how much it is. */
const shownDifference = (by: number): string => `${by > 0 ? '+' : ''}${Number(by.toPrecision(2))}`;

const shown = (value: unknown): string => (value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 60));
