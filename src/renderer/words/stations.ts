import type { RingInput, RingRunout, RingStation } from '../../shared/presentation/drawing/ringInput.ts';
import type { State } from '../../shared/presentation/drawing/states.ts';
import { judge } from '../../shared/measuring/uncertainty/verdict.ts';
import type { BacklashBasis } from '../../shared/basics/recorded.ts';
import type { RunoutResult, StationResult } from '../../shared/job/records/measurement.ts';
import { endsOf, type Limit, type LimitedQuantity, type SpecSheet } from '../../shared/job/records/specSheet.ts';
import { isNone, type OrNone } from '../../shared/basics/result.ts';
import { sameBacklashBasis } from '../../shared/job/checks/judge.ts';

/** The limit for a quantity that can be held against a reading of this basis. */
export function limitFor(
  sheet: SpecSheet | undefined,
  quantity: LimitedQuantity,
  basis?: BacklashBasis,
): Limit | undefined {
  return sheet?.limits.find((limit) => {
    if (limit.quantity !== quantity) return false;
    if (basis === undefined || !('basis' in limit) || !('direction' in limit.basis)) return true;
    return sameBacklashBasis(limit.basis, basis);
  });
}

/** How one number stands against a limit, as the shape it is drawn with; without a limit it is merely there. */
export function stateOfValue(
  value: OrNone<number>,
  U95: number,
  limit: Limit | undefined,
  sheet: SpecSheet | undefined,
): State {
  if (isNone(value) || limit === undefined) return 'not-measured';
  const { verdict, closeCall } = judge(value, U95, endsOf(limit), sheet?.rule ?? 'simple');
  return verdict === 'within' && closeCall ? 'too-close' : verdict;
}

/** Where a station lies on the ring gear: as its angle was measured, else in equal parts from station 1 at the top. */
export const stationAngle = (number: number, of: number, measured_deg?: number): number =>
  measured_deg ?? ((number - 1) * 360) / Math.max(of, 1);

/** Stations as the ring draws them; those still to come are there without a number. */
export function ringStations(
  stations: readonly Pick<StationResult, 'number' | 'value_mm' | 'U95_mm' | 'gearAngle_deg'>[],
  wanted: number,
  limit: Limit | undefined,
  sheet: SpecSheet | undefined,
): readonly RingStation[] {
  const count = Math.max(wanted, ...stations.map((station) => station.number));
  return Array.from({ length: count }, (_, index): RingStation => {
    const station = stations.find((one) => one.number === index + 1);
    const angle_deg = stationAngle(index + 1, count, station?.gearAngle_deg);
    if (station === undefined)
      return { number: index + 1, angle_deg, value_mm: { none: 'not-measured' }, state: 'not-measured' };
    const U95 = isNone(station.U95_mm) ? 0 : station.U95_mm;
    const state = stateOfValue(station.value_mm, U95, limit, sheet);
    return { number: station.number, angle_deg, value_mm: station.value_mm, U95_mm: U95, state };
  });
}

/** A runout as the ring draws it, or nothing where there is no number. */
export function ringRunout(result: RunoutResult, limit: Limit | undefined): RingRunout | undefined {
  if (isNone(result.tir_mm)) return undefined;
  const end = limit === undefined ? undefined : endsOf(limit).max;
  const harmonics = isNone(result.harmonics) ? [] : result.harmonics;
  const samples = result.stations.map(({ number, angle_deg, value_mm }) => ({
    angle_deg: stationAngle(number, result.stations.length, angle_deg),
    value_mm,
  }));
  const high = harmonics.find(({ order }) => order === 1)?.highSpot_deg;
  return {
    tir_mm: result.tir_mm,
    ...(end === undefined ? {} : { limit_mm: end }),
    ...(samples.length === 0 ? {} : { samples }),
    ...(harmonics.length === 0 ? {} : { harmonics }),
    ...(high === undefined ? {} : { highSpot_deg: high }),
  };
}

/** The ends of a limit as drawings take them. */
export const windowOf = (limit: Limit | undefined): Pick<RingInput, 'limits'> =>
  limit === undefined ? {} : { limits: endsOf(limit) };
