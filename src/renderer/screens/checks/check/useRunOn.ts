import { useEffect } from 'react';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import type { CaptureSettings } from '../../../../shared/job/records/measurement.ts';
import { startRun, stopRun } from '../../../live/run.ts';

interface RunWanted {
  readonly settings: CaptureSettings;
  readonly gauge: Gauge;
}

/**
 * Listens for a measurement for as long as its screen is on the stage, hands free: it starts by itself and starts
 * anew when the gauge, the settings or the round change. They are compared by what they say, because a list of
 * gauges that is read again must not throw away half a measurement; neither may a cable that comes loose.
 */
export function useRunOn(settings: CaptureSettings, gauge: Gauge | undefined, round: number): void {
  const wanted = gauge === undefined ? undefined : JSON.stringify({ settings, gauge, round });
  useEffect(() => {
    if (wanted === undefined) return undefined;
    const now = JSON.parse(wanted) as RunWanted;
    startRun(now.settings, now.gauge);
    return stopRun;
  }, [wanted]);
}
