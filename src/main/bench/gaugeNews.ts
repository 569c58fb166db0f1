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

/** All gauges together up to this many readings a second go out one by one, at once. */
const atOnceUpTo_per_s = 1000;
/**
 * Above that, about one batch a frame: a screen draws no faster, and a thousand messages a second would choke it. The
 * first reading of a batch has waited this long before it sets out, so it is less than a frame of 16.7 ms.
 */
const batchEvery_ms = 12;

/**
 * Sends readings to the screens: at once while all gauges together stay below a thousand a second, in batches
 * of one frame above that. The rate is judged over the last quarter of a second.
 */
export function readingsNews(
  outlet: Outlet,
  monotonic_s: () => number,
): { readonly tell: (readings: readonly GaugeReading[]) => void; readonly close: () => void } {
  const window_s = 0.25;
  let windowStart = monotonic_s();
  let inWindow = 0;
  let fast = false;
  let batch: Heard[] = [];
  let timer: NodeJS.Timeout | undefined;

  const send = (): void => {
    timer = undefined;
    if (batch.length === 0) return;
    const news = batch;
    batch = [];
    outlet.tell('heard', news);
  };

  const judgeRate = (count: number): void => {
    const now = monotonic_s();
    inWindow += count;
    if (now - windowStart < window_s) return;
    fast = inWindow / (now - windowStart) > atOnceUpTo_per_s;
    windowStart = now;
    inWindow = 0;
  };

  return {
    tell(readings) {
      judgeRate(readings.length);
      for (const reading of readings) batch.push(heard(reading));
      if (!fast) send();
      else timer ??= setTimeout(send, batchEvery_ms);
    },
    close: () => clearTimeout(timer),
  };
}
