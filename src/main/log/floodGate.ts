import type { LogEvent } from './logEvent.ts';

/** Of one kind so many a minute are written out; the rest is counted, so that one fault does not push out all others. */
const mostOfAKind = 30;
const window_s = 60;

interface FloodGate {
  readonly note: (event: LogEvent) => void;
  /** Tells what has been counted and not told yet. */
  readonly close: () => void;
}

/** Lets events through to `write`, and says how many of a kind it held back when their minute is over. */
export function createFloodGate(write: (event: LogEvent) => void, monotonic_s: () => number): FloodGate {
  let began_s = monotonic_s();
  const seen = new Map<string, number>();

  const tellHeld = (): void => {
    for (const [of, count] of seen) if (count > mostOfAKind) write({ kind: 'more', of, count: count - mostOfAKind });
    seen.clear();
    began_s = monotonic_s();
  };
  return {
    note(event) {
      if (monotonic_s() - began_s > window_s) tellHeld();
      const count = (seen.get(event.kind) ?? 0) + 1;
      seen.set(event.kind, count);
      if (count <= mostOfAKind) write(event);
    },
    close: tellHeld,
  };
}
