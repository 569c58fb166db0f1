import type { GaugeState } from '../../shared/contract/gauges.ts';
import type { GaugeReading } from '../../shared/gauges/gaugeReading.ts';
import type { LineFormat } from '../../shared/gauges/lineFormat.ts';
import type { Link } from '../../shared/gauges/link.ts';
import type { Clock } from '../clock.ts';
import type { Journal } from '../journal/journal.ts';
import type { OpenPort } from './links/port.ts';

/** What keeping one gauge connected needs. */
export interface GaugeLinkOptions {
  readonly gauge: string;
  readonly link: Link;
  readonly format: LineFormat;
  readonly ownUnit?: string;
  readonly journal: Journal;
  readonly clock: Clock;
  readonly open: OpenPort;
  readonly onReadings: (readings: readonly GaugeReading[]) => void;
  readonly onState: (state: GaugeState) => void;
}
