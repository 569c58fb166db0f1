import type { RingInput, RingRunout, RingStation } from './ringInput.ts';
import type { State } from './states.ts';
import { judge } from '../../measuring/uncertainty/verdict.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import type { RunoutResult, StationResult } from '../../job/records/measurement.ts';
import { endsOf, type Limit, type LimitedQuantity, type SpecSheet } from '../../job/records/specSheet.ts';
import { isNone, type OrNone } from '../../basics/result.ts';
import { sameBacklashBasis } from '../../job/checks/judge.ts';

/** The limit for a quantity; for a backlash the one on the reading's own basis, or none. */
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

/** A number in mm as it is known: with its expanded uncertainty, or without where there is none. */
type Known = Pick<StationResult, 'value_mm' | 'U95_mm'>;

/** How one number stands against a limit; without a limit it is there and has no verdict. */
export function standOf(
  { value_mm, U95_mm }: Known,
  limit: Limit | undefined,
  sheet: SpecSheet | undefined,
): State | 'recorded' {
  if (isNone(value_mm)) return 'not-measured';
  if (limit === undefined) return 'recorded';
  const { verdict, closeCall } = judge(value_mm, numberOr0(U95_mm), endsOf(limit), sheet?.rule ?? 'simple');
  return verdict === 'within' && closeCall ? 'too-close' : verdict;
}

/** As {@link standOf}, as the shape it is drawn with: a number without a verdict has the plain ring. */
export function stateOf(known: Known, limit: Limit | undefined, sheet: SpecSheet | undefined): State {
  const stand = standOf(known, limit, sheet);
  return stand === 'recorded' ? 'not-measured' : stand;
}

const numberOr0 = (value: OrNone<number>): number => (isNone(value) ? 0 : value);

/** Where a station lies on the ring gear: as its angle was measured, else in equal parts from station 1 at the top. */
export const stationAngle = (number: number, of: number, measured_deg?: number): number =>
  measured_deg ?? ((number - 1) * 360) / Math.max(of, 1);

type StationSeen = Known & Pick<StationResult, 'number' | 'gearAngle_deg'>;

interface Judged {
  /** Stations to come are drawn without a number: as many as are wanted in all. */
  readonly wanted?: number;
  readonly limit: Limit | undefined;
  readonly sheet: SpecSheet | undefined;
}

/** Stations as the ring draws them, on screen and paper. */
export function ringStations(
  stations: readonly StationSeen[],
  { wanted = 0, limit, sheet }: Judged,
): readonly RingStation[] {
  const count = Math.max(wanted, ...stations.map((station) => station.number));
  return Array.from({ length: count }, (_, index): RingStation => {
    const station = stations.find((one) => one.number === index + 1);
    const angle_deg = stationAngle(index + 1, count, station?.gearAngle_deg);
    if (station === undefined)
      return { number: index + 1, angle_deg, value_mm: { none: 'not-measured' }, state: 'not-measured' };
    const { number, value_mm, U95_mm } = station;
    return { number, angle_deg, value_mm, U95_mm: numberOr0(U95_mm), state: stateOf(station, limit, sheet) };
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
export const drawnLimits = (limit: Limit | undefined): Pick<RingInput, 'limits'> =>
  limit === undefined ? {} : { limits: endsOf(limit) };
