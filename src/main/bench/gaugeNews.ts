import type { GaugeState } from '../../shared/contract/gauges.ts';
import type { Heard } from '../../shared/gauges/heard.ts';
import type { GaugeReading } from '../../shared/gauges/gaugeReading.ts';
import { isNone } from '../../shared/basics/result.ts';
import type { Gauges } from '../gauges/gauges.ts';
import type { Log } from '../log/log.ts';
import type { Outlet } from './outlet.ts';
import { printable } from '../journal/measured.ts';

/** A line from a gauge as the screens hear it. */
export function heard(reading: GaugeReading): Heard {
  const { seq, gauge, t, value, unit, raw } = reading;
  return isNone(value) ? { seq, gauge, t, none: value.none, raw: printable(raw) } : { seq, gauge, t, value, unit };
}

export const statesOf = (gauges: Gauges): GaugeState[] => [...gauges.states()];

/** The news of how the gauges stand. */
interface StatesNews {
  /** One of them has changed: all are told, once for however many change in the same breath. */
  readonly tell: (changed: GaugeState) => void;
  /** From here on it is these gauges whose states are told. */
  follow(gauges: Gauges): void;
}

export function statesNews(outlet: Outlet, log: Log): StatesNews {
  let followed: Gauges | undefined;
  let coming = false;
  const before = new Map<string, string>();
  return {
    follow: (gauges) => void (followed = gauges),
    tell({ gauge, state, problem }) {
      if (before.get(gauge) !== state) log.note({ kind: 'gauge', gauge, state, problem: problem?.kind });
      before.set(gauge, state);
      if (coming) return;
      coming = true;
      queueMicrotask(() => {
        coming = false;
        if (followed !== undefined) outlet.tell('gauge-states', statesOf(followed));
      });
    },
  };
}

/**
 * Messages with readings are at least so far apart: a reading after a pause goes out at once, and one that comes sooner waits
 * for the rest of this. So a screen has at most 500 messages a second however fast the gauges are (a page takes a tenth of a
 * millisecond for each), four gauges of 100/s keep their distance by themselves, and no reading waits for long.
 */
const apart_ms = 2;

/** Sends readings to the screens: at once, or together with those that follow within a few milliseconds. */
export function readingsNews(outlet: Outlet): {
  readonly tell: (readings: readonly GaugeReading[]) => void;
  readonly close: () => void;
} {
  let batch: Heard[] = [];
  let sentAt_ms = Number.NEGATIVE_INFINITY;
  let timer: NodeJS.Timeout | undefined;

  const send = (): void => {
    timer = undefined;
    const news = batch;
    batch = [];
    sentAt_ms = performance.now();
    outlet.tell('heard', news);
  };

  return {
    tell(readings) {
      for (const reading of readings) batch.push(heard(reading));
      if (batch.length === 0 || timer !== undefined) return;
      const wait_ms = sentAt_ms + apart_ms - performance.now();
      if (wait_ms <= 0) send();
      else timer = setTimeout(send, wait_ms);
    },
    close: () => clearTimeout(timer),
  };
}
