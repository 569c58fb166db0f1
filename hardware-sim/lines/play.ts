import { setImmediate as nextTurn, setTimeout as sleep } from 'node:timers/promises';
import type { Chunk } from './chunk.ts';
import type { Line } from './line.ts';

/** What paces the sending. */
export interface Pace {
  /** Seconds since the beginning. */
  now_s(): number;
  /** Waits until then, or not at all where it has passed. */
  until(t_s: number): Promise<void>;
}

/** The real clock, or a multiple of it. Every due time is counted from the one beginning, so lateness never adds up. */
export function realPace(speed = 1): Pace {
  const began_ms = performance.now();
  const now_s = (): number => ((performance.now() - began_ms) * speed) / 1000;
  return {
    now_s,
    async until(t_s) {
      const wait_ms = ((t_s - now_s()) * 1000) / speed;
      if (wait_ms > 0) await sleep(wait_ms);
    },
  };
}

/** No waiting: for tests and files. */
export const asFastAsPossible = (): Pace => ({ now_s: () => Infinity, until: () => Promise.resolve() });

/** So many bytes that are due together go out in one write; beyond it the line is given time to carry them. */
const MOST_TOGETHER = 4096;

function joined(parts: readonly Uint8Array[]): Uint8Array {
  return parts.length === 1 && parts[0] !== undefined ? parts[0] : Buffer.concat(parts);
}

/**
 * Sends each chunk at its due time; those already due go together. Reads one chunk ahead, no more, so that a
 * live gauge can still change its mind. Ends with the chunks, or when `signal` is aborted. Returns bytes sent.
 */
export async function play(chunks: Iterable<Chunk>, line: Line, pace: Pace, signal?: AbortSignal): Promise<number> {
  let due: Uint8Array[] = [];
  let waiting = 0;
  let sent = 0;
  async function flush(): Promise<void> {
    if (due.length === 0) {
      await nextTurn();
      return;
    }
    const bytes = joined(due);
    due = [];
    waiting = 0;
    sent += bytes.length;
    await line.write(bytes);
  }
  for (const chunk of chunks) {
    if (chunk.t_s > pace.now_s() || waiting >= MOST_TOGETHER) {
      await flush();
      await pace.until(chunk.t_s);
    }
    if (signal?.aborted === true) return sent;
    due.push(chunk.bytes);
    waiting += chunk.bytes.length;
  }
  await flush();
  return sent;
}
