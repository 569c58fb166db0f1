import { useEffect } from 'react';
import type { Gauge } from '../../../shared/records/gauge.ts';
import type { CaptureSettings } from '../../../shared/records/measurement.ts';
import { type Run, startRun, stopRun, useRun } from '../../live/run.ts';

/**
 * Listens for a measurement for as long as its screen is on the stage, hands free: it starts by itself and starts
 * anew when the gauge or the settings change.
 */
export function useRunOn(settings: CaptureSettings, gauge: Gauge | undefined, listening: boolean): Run | undefined {
  const wanted = JSON.stringify(settings);
  useEffect(() => {
    if (gauge === undefined || !listening) return undefined;
    startRun(JSON.parse(wanted) as CaptureSettings, gauge);
    return stopRun;
  }, [wanted, gauge, listening]);
  return useRun(({ run }) => run);
}
