import { useEffect, useLayoutEffect, useRef } from 'react';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import type { CaptureSettings } from '../../../../shared/job/records/measurement.ts';
import { type Begun, startRun, stopRun } from '../../../live/run.ts';

interface RunWanted {
  readonly settings: CaptureSettings;
  readonly gauge: Gauge;
  readonly begun?: Begun;
}

/** What of a gauge's record bears on a measurement. At which port it hangs does not, and that may change in mid-station. */
const measuring = ({ link: _link, usb: _usb, ...gauge }: Gauge): Gauge => gauge;

/**
 * Listens for a measurement for as long as its screen is on the stage, hands free: it starts by itself and starts
 * anew when the gauge, the settings or the round change. They are compared by what they say, because a list of
 * gauges that is read again must not throw away half a measurement; neither may a cable that comes loose.
 */
export function useRunOn(
  settings: CaptureSettings,
  gauge: Gauge | undefined,
  { round, begun }: { readonly round: number; readonly begun?: Begun | undefined },
): void {
  // What was heard before may be thousands of readings: where they lie says which they are.
  const from = begun === undefined ? undefined : { stretch: begun.stretch, stations: begun.stations };
  const wanted =
    gauge === undefined ? undefined : JSON.stringify({ settings, gauge: measuring(gauge), round, begun: from });
  const heard = useRef(begun?.heard);
  useLayoutEffect(() => {
    heard.current = begun?.heard;
  });
  useEffect(() => {
    if (wanted === undefined) return undefined;
    const now = JSON.parse(wanted) as RunWanted;
    const before = heard.current === undefined ? {} : { heard: heard.current };
    startRun(now.settings, now.gauge, now.begun === undefined ? undefined : { ...now.begun, ...before });
    return stopRun;
  }, [wanted]);
}
