import { backlashReadOnce } from '../../../../shared/job/captures/readOnce.ts';
import { implausible } from '../../../../shared/job/checks/plausible.ts';
import type { BacklashBasis } from '../../../../shared/basics/recorded.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import { fail, ok, type Result } from '../../../../shared/basics/result.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import type { CaptureSettingsOf, How, MeasuredResult } from '../../../../shared/job/records/measurement.ts';
import { type DraftRead, wrong } from '../../../parts/draft.ts';
import { emptyDraft, readDraft } from '../../../parts/quantity.ts';
import { numberTyped } from '../stem/numbers.ts';
import { readTool, stepOf, type ToolDraft, type ToolErrors, toolErrors } from '../typed/tool.ts';

/** A backlash while it is being typed: one text a station, all in the unit of the one dial. */
export interface BacklashDraft {
  readonly stations: readonly string[];
  readonly unit: string;
  readonly direction: BacklashBasis['direction'];
  readonly place: 'heel' | 'radius';
  /** mm, where it is felt at a radius. */
  readonly radius: string;
  readonly tool: ToolDraft;
}

export interface BacklashErrors extends ToolErrors {
  /** By the station's number. */
  readonly stations?: Readonly<Record<number, string>>;
  readonly radius?: string;
}

/** Empty fields for as many stations as are usual, felt as usual. */
export function blankBacklash(
  { basis, stations = 0 }: CaptureSettingsOf<'backlash'>,
  tool: ToolDraft,
  units: UnitSystem,
): BacklashDraft {
  return {
    stations: Array.from({ length: stations }, () => ''),
    unit: emptyDraft('dial', units).unit,
    direction: basis.direction,
    place: basis.at === 'heel' ? 'heel' : 'radius',
    radius: basis.at === 'heel' ? '' : String(basis.at.radius_mm),
    tool,
  };
}

/** More or fewer stations; what is typed of those that stay is kept. */
export const withStations = ({ stations }: BacklashDraft, count: number): readonly string[] =>
  Array.from({ length: count }, (_, index) => stations[index] ?? '');

interface BacklashEntry {
  readonly how: How;
  readonly result: (how: How) => MeasuredResult;
}

/** The stations as a measurement of the notebook. One that is left empty has no number; all of them cannot be. */
export function readBacklash(draft: BacklashDraft): DraftRead<BacklashEntry, BacklashErrors> {
  const read = draft.stations.map((text, index) => readStation(text, draft.unit, index + 1));
  const how = readTool(draft.tool, 'dial');
  const basis = basisOf(draft);
  const values = read.flatMap((one) => (one.ok ? [one.value] : []));
  const isEmpty = values.length === read.length && values.every((value) => value === undefined);
  if (values.length === read.length && !isEmpty && how.ok && basis !== undefined)
    return ok({ how: how.value, result: (by) => backlashReadOnce({ values, basis, step: stepOf(by) }) });
  return wrong({
    ...toolErrors(how),
    ...(isEmpty ? { stations: { 1: nothingTyped } } : stationErrors(read)),
    ...(basis === undefined ? { radius: 'From the middle of the gear, in mm.' } : {}),
  });
}

const nothingTyped = 'Type what the dial showed at each station.';

/** A station in mm, undefined where nothing was read there. */
function readStation(text: string, unit: string, number: number): Result<number | undefined> {
  if (text.trim() === '') return ok(undefined);
  const read = readDraft({ text, unit }, 'dial', `Station ${number}`);
  if (!read.ok) return read;
  const value = insideOf(read.value);
  const problem = implausible('backlash', value);
  return problem === undefined ? ok(value) : fail(problem);
}

function stationErrors(read: readonly Result<unknown>[]): Pick<BacklashErrors, 'stations'> {
  const found = read.flatMap((one, index) =>
    one.ok ? [] : [[index + 1, `${one.problem.sentence} ${one.problem.remedy}`] as const],
  );
  return found.length === 0 ? {} : { stations: Object.fromEntries(found) };
}

function basisOf({ direction, place, radius }: BacklashDraft): BacklashBasis | undefined {
  if (place === 'heel') return { direction, at: 'heel' };
  const radius_mm = numberTyped(radius, 1, 1000);
  return radius_mm === undefined ? undefined : { direction, at: { radius_mm } };
}
