import type { StationMeasured } from '../../../../shared/measuring/backlash/measured.ts';
import type { StationResult } from '../../../../shared/job/records/measurement.ts';
import { isNone, none } from '../../../../shared/basics/result.ts';
import type { Run } from '../../../live/run.ts';

/** Where the station at work stands. */
export interface RocksNow {
  readonly rocks: number;
  readonly last: number | undefined;
  readonly mean: number | undefined;
  /** The stem is off the tooth, on its way to the next. */
  readonly lifted: boolean;
}

const nothingYet: RocksNow = { rocks: 0, last: undefined, mean: undefined, lifted: false };

/** Reads the station at work from what was found last; a station that has ended leaves nothing behind. */
export function rocksNow(run: Run | undefined): RocksNow {
  let now = nothingYet;
  for (const event of run?.found ?? []) {
    if (event.kind === 'rock-counted') now = { rocks: event.rocks, last: event.value, mean: event.mean, lifted: false };
    if (event.kind === 'lifted') now = { ...nothingYet, lifted: true };
    if (event.kind === 'landed') now = { ...now, lifted: false };
    if (event.kind === 'station-done' || event.kind === 'station-refused' || event.kind === 'taken-anew')
      now = nothingYet;
  }
  return now;
}

/** When the stem came down on the tooth it stands on now. */
export const landedAt = (run: Run | undefined): number | undefined =>
  run?.found.findLast((event) => event.kind === 'landed')?.t;

/** Stations measured live, as the ring and the lists take them. */
export const stationRows = (
  stations: readonly StationMeasured[],
): readonly Pick<StationResult, 'number' | 'value_mm' | 'U95_mm' | 'rocks'>[] =>
  stations.map((station, index) => ({
    number: index + 1,
    value_mm: station.value,
    rocks: station.rocks,
    U95_mm: isNone(station.value) ? none(station.value.none) : station.U95,
  }));
