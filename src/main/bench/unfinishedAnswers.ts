import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { done } from '../../shared/contract/message.ts';
import { gaugeSeenOf } from '../../shared/job/records/gauge.ts';
import type { StationMeasured } from '../../shared/measuring/backlash/measured.ts';
import { ok } from '../../shared/basics/result.ts';
import type { MeasuringDesk } from './measurementAnswers.ts';
import { listenAgain } from './remeasure.ts';

type Names = 'unfinished.note' | 'unfinished.find' | 'unfinished.forget';

/** Measurements that were begun and not recorded. Their readings are in the journal; only where they lie is noted. */
export function unfinishedAnswers(desk: MeasuringDesk): Pick<BenchAnswers, Names> {
  return {
    'unfinished.note': async ({ assembly, check, ...unfinished }) => {
      const noted = desk.unfinished.note({ assembly, check }, unfinished);
      return noted.ok ? ok(done) : noted;
    },
    'unfinished.find': async (which) => {
      const unfinished = desk.unfinished.find(which);
      const gauge = unfinished === undefined ? undefined : desk.gaugeRecords.read(unfinished.stretch.gauge);
      if (unfinished === undefined || gauge === undefined) return ok({});
      const { stretch, settings } = unfinished;
      // Rows that a power cut took, or a gauge that measures something else now: then there is nothing to go on from.
      const heard = listenAgain(desk.journal, stretch, settings, gaugeSeenOf(gauge));
      if (!heard.ok || !heard.value.capture.isBegun()) return ok({});
      return ok({ found: { stretch, settings, stations: heard.value.capture.taken().map(plain) } });
    },
    'unfinished.forget': async (which) => {
      const forgotten = desk.unfinished.forget(which);
      return forgotten.ok ? ok(done) : forgotten;
    },
  };
}

/** The lists of a station as lists that the answer may own. */
const plain = (station: StationMeasured) => ({ ...station, flags: [...station.flags], parts: [...station.parts] });
