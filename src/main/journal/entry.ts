/**
 * What the journal holds. Readings keep the value and unit as received; everything that happened to a gauge,
 * and the technician's presses, stand in the same order as the readings they explain.
 */
interface Base {
  /** The gauge concerned; left out for what concerns the whole bench (a press, the clock). */
  readonly gauge?: string;
  /** Monotonic seconds of this run of the bench. */
  readonly t: number;
  /** Wall-clock milliseconds since 1970 UTC. */
  readonly at: number;
}

interface ReadingEntry extends Base {
  readonly kind: 'reading';
  readonly gauge: string;
  /** As received, in `unit`. */
  readonly value: number;
  /** UCUM code. */
  readonly unit: string;
  readonly raw: Uint8Array;
  /** Flags of the line, comma separated, e.g. `low-battery`. */
  readonly note?: string;
}

interface UnreadableEntry extends Base {
  readonly kind: 'unreadable';
  readonly gauge: string;
  readonly raw: Uint8Array;
  /** Why no number was read, e.g. `overload`, `noise`. */
  readonly note: string;
}

/**
 * Everything else. `opened` a run of the bench begins (t starts anew) · `live` the gauge's port is open ·
 * `gone` unplugged or lost · `silent` stopped sending · `sending` sends again · `unit` unit switched at the
 * gauge (note: from → to) · `pedal` a press (note: next, again) · `clock` the wall clock was set or the
 * computer slept · `thinned` idle rows were removed here · `lost` readings the disk could not take.
 */
interface EventEntry extends Base {
  readonly kind: EventKind;
  readonly note?: string;
}

export type EventKind =
  | 'opened'
  | 'live'
  | 'gone'
  | 'silent'
  | 'sending'
  | 'unit'
  | 'pedal'
  | 'clock'
  | 'thinned'
  | 'lost';

export type Entry = ReadingEntry | UnreadableEntry | EventEntry;

/** An entry with its row number. Numbers rise by one in the order in which the bench saw things. */
export type JournalRow = Entry & { readonly seq: number };
