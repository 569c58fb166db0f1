import type { HandAction } from '../../shared/contract/bench.ts';
import { startCapture, streamItem } from '../../shared/job/captures/capture.ts';
import { type GaugeDesk, pressPedal } from './gaugeAnswers.ts';
import type { CaptureSettings } from '../../shared/job/records/measurement.ts';
import { gaugeSeenOf } from '../../shared/job/records/gauge.ts';

/** What a simulated hand goes by, as a person at the stand does. */
export interface HandCues {
  /** The foot on the pedal. */
  readonly pedal: () => void;
  /** Whether the bench has sounded that this station (from 0) is done or refused. */
  readonly stationDone: (station: number) => boolean;
}

/**
 * Listens on behalf of the simulated hand while it rocks, with the capture that the screens run: the hand goes to
 * the next station when the bench says so, and not after a fixed number of rocks.
 */
export function listenForHand(desk: GaugeDesk, action: HandAction): HandCues & { readonly stop: () => void } {
  let done = 0;
  const settings = settingsFor(action);
  const stops =
    settings !== undefined
      ? desk.gaugeRecords
          .list()
          .flatMap((gauge) => listenTo(desk, { id: gauge.id, settings, stationOver: () => (done += 1) }))
      : [];
  return {
    pedal: () => void pressPedal(desk, 'next'),
    stationDone: (station) => done > station,
    stop: () => {
      for (const stop of stops) stop();
    },
  };
}

/** What is listened for; turns go by the pedal. */
function settingsFor(action: HandAction): CaptureSettings | undefined {
  if (action.do === 'push-case') return { kind: 'play' };
  const basis = { direction: 'along-rotation', at: 'heel' } as const;
  return action.do === 'rock' ? { kind: 'backlash', basis, nextBy: 'itself' } : undefined;
}

interface Listening {
  readonly id: string;
  readonly settings: CaptureSettings;
  readonly stationOver: () => void;
}

function listenTo(desk: GaugeDesk, { id, settings, stationOver }: Listening): readonly (() => void)[] {
  const gauge = desk.gaugeRecords.read(id);
  if (gauge?.kind !== 'indicator') return [];
  const capture = startCapture(settings, gaugeSeenOf(gauge));
  if (!capture.ok) return [];
  const stop = desk.outlet.hear('heard', (news) => {
    for (const heard of news) {
      if (!('gauge' in heard) || heard.gauge !== id) continue;
      const item = streamItem(heard, settings.kind, gauge);
      if (!item.ok || item.value === undefined) continue;
      for (const event of capture.value.step(item.value)) {
        if (event.kind === 'station-done' || event.kind === 'station-refused') stationOver();
      }
    }
  });
  return [stop];
}
