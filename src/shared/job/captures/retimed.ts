import { lastOfRetimer, newRetimer, retime } from '../../gauges/retiming.ts';
import type { StreamItem } from '../../measuring/reading.ts';

/** What a measurement does with one item whose time is known. */
type Step<Event> = (item: StreamItem) => readonly Event[];

/** A measurement's step behind the stage that tells when readings were sent. */
interface Retimed<Event> {
  readonly step: Step<Event>;
  /** Lets the measurement have what is still held: the stream is over. */
  readonly end: () => void;
}

/** Puts the stage before a measurement that runs live: an item that waits brings its events once its time is known. */
export function retimed<Event>(step: Step<Event>): Retimed<Event> {
  const retimer = newRetimer<StreamItem>();
  return {
    step: (item) => {
      const items = retime(retimer, item);
      const [only] = items;
      return items.length === 1 && only !== undefined ? step(only) : items.flatMap(step);
    },
    end: () => {
      for (const item of lastOfRetimer(retimer)) step(item);
    },
  };
}

/** The same for a recorded stream. */
export function retimedAll(items: readonly StreamItem[]): readonly StreamItem[] {
  const retimer = newRetimer<StreamItem>();
  const inTime = items.flatMap((item) => retime(retimer, item));
  return [...inTime, ...lastOfRetimer(retimer)];
}
