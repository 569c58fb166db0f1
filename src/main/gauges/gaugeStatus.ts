import type { GaugeState } from '../../shared/contract/gauges.ts';
import type { StreamLine } from '../../shared/gauges/lineStream.ts';
import type { Problem } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import { rateMeter } from './rate.ts';

type LinkState = GaugeState['state'];

/** How one gauge stands, counted and told. */
export interface GaugeStatus {
  readonly now: () => LinkState;
  readonly report: () => GaugeState;
  /** Tells of the change at once; the same state with the same problem is no change. */
  readonly become: (next: LinkState, why?: Problem) => void;
  readonly count: (lines: readonly StreamLine[]) => void;
}

export function gaugeStatus(gauge: string, clock: Clock, onState: (state: GaugeState) => void): GaugeStatus {
  const rate = rateMeter();
  let state: LinkState = 'connecting';
  let problem: Problem | undefined;
  let readings = 0;
  let unreadable = 0;
  let heard = false;

  const report = (): GaugeState => ({
    gauge,
    state,
    heard,
    readings,
    unreadable,
    rate_per_s: rate.perSecond(clock.monotonic_s()),
    ...(problem !== undefined && { problem }),
  });

  return {
    now: () => state,
    report,
    become: (next, why) => {
      if (state === next && problem?.sentence === why?.sentence) return;
      state = next;
      // What comes when it is opened again comes from whatever hangs there then.
      if (next !== 'live' && next !== 'silent') heard = false;
      problem = why;
      onState(report());
    },
    count: (lines) => {
      for (const line of lines) {
        rate.count(line.t);
        if ('why' in line) unreadable += 1;
        else readings += 1;
      }
      if (heard || lines.length === 0) return;
      heard = true;
      onState(report());
    },
  };
}
