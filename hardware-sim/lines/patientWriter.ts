import { write } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';

/** With no room for this long, nobody listens at the other end. A live listener stalls for less, even at its worst. */
const PATIENCE_ms = 500;
/** Between two tries while the buffer is full: at 5,000 lines/s it takes longer than this to fill. */
const RETRY_ms = 1;

const attempt = (descriptor: number, bytes: Uint8Array): Promise<number> =>
  new Promise((resolve, reject) => {
    write(descriptor, bytes, 0, bytes.length, null, (error, written) => {
      if (error === null) resolve(written);
      else if (error.code === 'EAGAIN') resolve(0);
      else reject(error);
    });
  });

/** Writes to a non-blocking descriptor in order, waits while the other end is slow, loses bytes when nobody is there. */
export interface PatientWriter {
  write(bytes: Uint8Array): Promise<void>;
  readonly lost_bytes: number;
  /** After this nothing touches the descriptor any more, once the promise has settled. */
  stop(): Promise<void>;
}

export function patientWriter(descriptor: number): PatientWriter {
  const stopping = new AbortController();
  let lost_bytes = 0;
  let stalledSince_ms: number | undefined;
  let last: Promise<void> = Promise.resolve();

  const givesUp = (): boolean => stalledSince_ms !== undefined && performance.now() - stalledSince_ms > PATIENCE_ms;

  async function send(bytes: Uint8Array): Promise<void> {
    let rest = bytes;
    while (rest.length > 0 && !stopping.signal.aborted) {
      const written = await attempt(descriptor, rest);
      rest = rest.subarray(written);
      if (written > 0) stalledSince_ms = undefined;
      else if (givesUp()) break;
      else {
        stalledSince_ms ??= performance.now();
        await sleep(RETRY_ms);
      }
    }
    lost_bytes += rest.length;
  }

  return {
    write(bytes) {
      // A hung-up terminal refuses the write: for a gauge that is a cable out, not an error.
      last = last.then(() => send(bytes)).catch(() => void (lost_bytes += bytes.length));
      return last;
    },
    get lost_bytes() {
      return lost_bytes;
    },
    stop() {
      stopping.abort();
      return last;
    },
  };
}
