import { useState } from 'react';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { gaugesFor, type StreamKind, useLiveGauges } from '../../../stores/gauges.ts';

interface GaugeChosen {
  readonly gauge: Gauge | undefined;
  readonly all: readonly Gauge[];
  readonly live: boolean;
  readonly choose: (id: string) => void;
}

/**
 * The gauge to measure with: the one chosen, else by itself the one that is live.
 * @param begunWith the gauge with which it was begun, where it was
 */
export function useGauge(kind: StreamKind, begunWith?: string): GaugeChosen {
  const seen = useLiveGauges();
  const [wanted, choose] = useState(begunWith);
  const all = gaugesFor(seen, kind);
  const gauge = all.find((one) => one.id === wanted) ?? all[0];
  // Once measured with, it stays the one: when its cable comes loose no other gauge may take its place unasked.
  if (wanted === undefined && gauge !== undefined && seen.live.has(gauge.id)) choose(gauge.id);
  return { gauge, all, live: gauge !== undefined && seen.live.has(gauge.id), choose };
}
