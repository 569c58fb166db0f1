import { openWay, type Reach, type Way } from './connect.ts';

/** So long after the last look somebody may still have the list before them. */
const listen_ms = 10 * 60_000;

/** Ears for what other benches send: a connection that is held open only while somebody looks. */
interface Ears {
  /** Listens from now on for ten minutes more. */
  listen(): void;
  close(): Promise<void>;
}

/** @param onNews told the id of each build that has gone on in the archive */
export function listening(reach: Reach, onNews: (build: string) => void): Ears {
  let open: Way | undefined;
  let timer: NodeJS.Timeout | undefined;
  const close = async (): Promise<void> => {
    clearTimeout(timer);
    const way = open;
    open = undefined;
    await way?.end({ timeout: 1 }).catch(() => undefined);
  };
  const begin = async (way: Way): Promise<void> => {
    try {
      await way.listen('axlewright_builds', onNews);
    } catch {
      // Not heard, the list is as it was when it was asked for. The next look tries again.
      if (open === way) await close();
    }
  };
  return {
    listen() {
      clearTimeout(timer);
      timer = setTimeout(() => void close(), listen_ms).unref();
      if (open !== undefined) return;
      const way = openWay(reach);
      if (!way.ok) return;
      open = way.value;
      void begin(way.value);
    },
    close,
  };
}
