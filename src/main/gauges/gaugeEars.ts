import { askingOf, type Link } from '../../shared/gauges/link.ts';
import { type LineStream, lineStream, type StreamLine } from '../../shared/gauges/lineStream.ts';
import type { GaugeLinkOptions } from './gaugeLinkOptions.ts';
import type { GaugeStatus } from './gaugeStatus.ts';
import { lineHearing } from './hearLines.ts';
import { silenceWatch } from './silence.ts';

/** What hears a gauge, from opening its port to losing it, and again. */
export interface GaugeEars {
  /** The port is about to open: a new stream of lines begins. */
  readonly opening: () => void;
  /** The port is open. */
  readonly live: () => void;
  readonly bytes: (bytes: Uint8Array) => void;
  /** The port is lost, and why. */
  readonly lost: (why: string) => void;
  /** Notices silence. */
  readonly check: () => void;
}

/** Seconds between two questions, where the gauge is asked. */
function askedEvery(link: Link): number | undefined {
  if (link.kind === 'modbus') return link.every_ms / 1000;
  const { ask, every_ms = 200 } = askingOf(link);
  return ask === undefined ? undefined : every_ms / 1000;
}

export function gaugeEars(options: GaugeLinkOptions, status: GaugeStatus): GaugeEars {
  const { gauge, link, journal, clock } = options;
  const askedEvery_s = askedEvery(link);
  const silence = silenceWatch(askedEvery_s);
  const hear = lineHearing({ gauge, journal });
  let stream: LineStream | undefined;
  let heardAny = false;

  const note = (kind: 'live' | 'gone' | 'silent' | 'sending', said?: string): void => {
    const times = { t: clock.monotonic_s(), at: clock.wall_ms() };
    journal.append({ kind, gauge, ...times, ...(said !== undefined && { note: said }) });
  };

  const take = (lines: readonly StreamLine[]): void => {
    if (lines.length === 0) return;
    status.count(lines);
    options.onReadings(hear(lines, clock.wall_ms()));
  };

  const opening = (): void => {
    const t = clock.monotonic_s();
    heardAny = false;
    silence.opened(t);
    // An answer begins after its question; a gauge that sends by itself may be in mid-line now.
    const openedAt = askedEvery_s === undefined ? t : undefined;
    stream = lineStream(options.format, { ownUnit: options.ownUnit, openedAt });
  };

  return {
    opening,
    live: () => {
      // Opening took its time; the first line is judged from now.
      if (!heardAny) opening();
      note('live');
      status.become('live');
    },
    bytes: (bytes) => {
      const t = clock.monotonic_s();
      heardAny = true;
      if (silence.heard(t) && status.now() === 'silent') {
        note('sending');
        status.become('live');
      }
      take(stream?.push(bytes, t) ?? []);
    },
    lost: (why) => {
      take(stream?.end(clock.monotonic_s()) ?? []);
      stream = undefined;
      note('gone', why);
    },
    check: () => {
      if (status.now() !== 'live' || !silence.check(clock.monotonic_s())) return;
      note('silent');
      status.become('silent');
    },
  };
}
