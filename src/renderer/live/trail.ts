import type { TracePoint } from '../../shared/presentation/drawing/decimate.ts';
import { none } from '../../shared/basics/result.ts';

/**
 * The last readings of one gauge, for drawing: fixed memory, oldest forgotten first. `cut` marks a place where
 * readings were lost or could not be read, so that a gap is drawn as a gap.
 */
export interface Trail {
  push(t: number, value: number): void;
  cut(): void;
  /** Readings from `since` (seconds) on, oldest first. */
  points(since: number): readonly TracePoint[];
}

export function trail(capacity: number): Trail {
  const times = new Float64Array(capacity);
  const values = new Float64Array(capacity);
  const cuts = new Uint8Array(capacity);
  let next = 0;
  let count = 0;
  let cutComing = 0;

  function push(t: number, value: number): void {
    times[next] = t;
    values[next] = value;
    cuts[next] = cutComing;
    cutComing = 0;
    next = (next + 1) % capacity;
    count = Math.min(count + 1, capacity);
  }

  function points(since: number): readonly TracePoint[] {
    const all: TracePoint[] = [];
    for (let back = count; back > 0; back -= 1) {
      const at = (next - back + capacity) % capacity;
      const t = times[at] ?? 0;
      if (t < since) continue;
      if (cuts[at] === 1) all.push({ t, v: none('gap') });
      all.push({ t, v: values[at] ?? 0 });
    }
    return all;
  }

  return {
    push,
    points,
    cut: () => {
      cutComing = 1;
    },
  };
}
