import { flanksScene } from '../drawing/flanks.ts';
import type { FlankView } from '../drawing/flanksInput.ts';
import { ringScene } from '../drawing/ring.ts';
import type { RingInput, RingRunout, RingStation } from '../drawing/ringInput.ts';
import type { State } from '../drawing/states.ts';
import { judge } from '../../measuring/uncertainty/verdict.ts';
import type { Mark } from '../../axle/mark/mark.ts';
import type { UnitSystem } from '../../basics/show.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import type { BacklashResult, MarkResult, RunoutResult, StationResult } from '../../job/records/measurement.ts';
import { endsOf, type Limit, type LimitedQuantity, type SpecSheet } from '../../job/records/specSheet.ts';
import { isNone, type OrNone } from '../../basics/result.ts';
import { sameBacklashBasis } from '../../job/checks/judge.ts';
import type { CertificateContent } from './content.ts';
import type { PictureBlock } from './page.ts';

/** The limit for a quantity; for a backlash the one on the reading's own basis, or none. */
export const limitFor = (
  sheet: SpecSheet | undefined,
  quantity: LimitedQuantity,
  basis?: BacklashResult['basis'],
): Limit | undefined =>
  sheet?.limits.find((limit) => {
    if (limit.quantity !== quantity) return false;
    if (basis === undefined || !('basis' in limit) || !('direction' in limit.basis)) return true;
    return sameBacklashBasis(limit.basis, basis);
  });

/** How one station stands against the window; without a window it has a number and no verdict. */
export function stationState(
  { value_mm, U95_mm }: Pick<StationResult, 'value_mm' | 'U95_mm'>,
  limit: Limit | undefined,
  sheet: SpecSheet | undefined,
): State | 'recorded' {
  if (isNone(value_mm)) return 'not-measured';
  if (limit === undefined) return 'recorded';
  const { verdict, closeCall } = judge(value_mm, numberOr0(U95_mm), endsOf(limit), sheet?.rule ?? 'simple');
  return verdict === 'within' && closeCall ? 'too-close' : verdict;
}

const numberOr0 = (value: OrNone<number>): number => (isNone(value) ? 0 : value);

/** Where a station lies: at its measured angle, else in equal parts from the first. */
export const stationAngle = (number: number, of: number, measured_deg?: number): number =>
  measured_deg ?? ((number - 1) * 360) / Math.max(of, 1);

function ringStations(result: BacklashResult, sheet: SpecSheet | undefined): readonly RingStation[] {
  const limit = limitFor(sheet, 'backlash', result.basis);
  return result.stations.map((station): RingStation => {
    const state = stationState(station, limit, sheet);
    return {
      number: station.number,
      angle_deg: stationAngle(station.number, result.stations.length, station.gearAngle_deg),
      value_mm: station.value_mm,
      U95_mm: numberOr0(station.U95_mm),
      state: state === 'recorded' ? 'not-measured' : state,
    };
  });
}

function ringRunout(result: RunoutResult, limit: Limit | undefined): RingRunout | undefined {
  if (isNone(result.tir_mm)) return undefined;
  const harmonics = isNone(result.harmonics) ? [] : result.harmonics;
  const end = limit === undefined ? undefined : endsOf(limit).max;
  const high = harmonics.find(({ order }) => order === 1)?.highSpot_deg;
  const samples = result.stations.map(({ number, angle_deg, value_mm }) => ({
    angle_deg: stationAngle(number, result.stations.length, angle_deg),
    value_mm,
  }));
  return {
    tir_mm: result.tir_mm,
    ...(end === undefined ? {} : { limit_mm: end }),
    ...(samples.length === 0 ? {} : { samples }),
    ...(harmonics.length === 0 ? {} : { harmonics }),
    ...(high === undefined ? {} : { highSpot_deg: high }),
  };
}

/** Backlash and runout round the gear: the drawing of the screens, with what was recorded. */
export function ringPicture(
  { makeUp, specSheet }: Pick<CertificateContent, 'makeUp' | 'specSheet'>,
  backlash: BacklashResult | undefined,
  runout: RunoutResult | undefined,
  system: UnitSystem,
): PictureBlock | undefined {
  if (makeUp === undefined || (backlash === undefined && runout === undefined)) return undefined;
  const limit = limitFor(specSheet, 'backlash', backlash?.basis);
  const turning = runout === undefined ? undefined : ringRunout(runout, limitFor(specSheet, 'ring-gear-runout'));
  const input: Omit<RingInput, 'size'> = {
    quantity: backlash === undefined ? 'Runout' : 'Backlash',
    teeth: makeUp.ringTeeth,
    stations: backlash === undefined ? [] : ringStations(backlash, specSheet),
    ...(limit === undefined || backlash === undefined ? {} : { limits: endsOf(limit) }),
    ...(turning === undefined ? {} : { runout: turning }),
    system,
  };
  return { kind: 'picture', share: 1, draw: (size) => ringScene({ ...input, size }) };
}

/** Marks of one assembly on both flanks, with the mark as found as a thin line where it was recorded. */
export function flanksPicture(
  makeUp: MakeUp | undefined,
  seen: MarkResult | undefined,
  found: MarkResult | undefined,
): PictureBlock | undefined {
  if (makeUp === undefined || (seen === undefined && found === undefined)) return undefined;
  const drive = makeUp.driveFlank;
  const coast = drive === 'convex' ? 'concave' : 'convex';
  const view = (flank: FlankView['flank'], side: 'drive' | 'coast'): FlankView => ({
    flank,
    ...markAs('seen', seen?.[side]),
    ...markAs('found', found?.[side]),
  });
  const input = {
    drive: view(drive, 'drive'),
    coast: view(coast, 'coast'),
    cut: makeUp.cut,
    turned: 'toe-left',
  } as const;
  return { kind: 'picture', share: 0.28, draw: (size) => flanksScene({ ...input, size }) };
}

const markAs = (as: 'seen' | 'found', mark: OrNone<Mark> | undefined): Partial<FlankView> =>
  mark === undefined || isNone(mark) ? {} : { [as]: mark };
