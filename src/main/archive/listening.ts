import { openWay, type Reach, type Way } from './connect.ts';
import { wait_ms } from './patience.ts';

/** So long after the last look somebody may still have the list before them. */
const listen_ms = 10 * 60_000;

/** Ears for what other benches send: a connection that is held open only while there is a reason to. */
interface Ears {
  /** Listens from now on for ten minutes more. */
  listen(): void;
  close(): Promise<void>;
}

interface Heard {
  /** Told the id of each build that has gone on in the archive. */
  readonly onNews: (build: string) => void;
  /** Something may have been missed: the line is gone, or is there again after it was not. */
  readonly onGap: () => void;
}

/** Where the archive is away it is tried again, each time after a longer rest, for as long as there is a reason to listen. */
export function listening(reach: Reach, { onNews, onGap }: Heard): Ears {
  let open: Way | undefined;
  let [failures, isWanted] = [0, false];
  let [ending, again]: (NodeJS.Timeout | undefined)[] = [];
  const drop = async (): Promise<void> => {
    const way = open;
    open = undefined;
    await way?.end({ timeout: 1 }).catch(() => undefined);
  };
  const close = async (): Promise<void> => {
    isWanted = false;
    clearTimeout(ending);
    clearTimeout(again);
    again = undefined;
    failures = 0;
    await drop();
  };
  const gone = (way: Way): void => {
    if (way !== open) return;
    void drop();
    if (!isWanted) return;
    if (failures === 0) onGap();
    failures += 1;
    again = setTimeout(() => void begin(), wait_ms(failures, Math.random())).unref();
  };
  const begin = async (): Promise<void> => {
    again = undefined;
    const opened = openWay(reach, { onWord: onNews, onGone: () => opened.ok && gone(opened.value) });
    if (!opened.ok) return;
    const way = opened.value;
    open = way;
    try {
      await way`LISTEN axlewright_builds`;
      if (failures > 0 && way === open) onGap();
      failures = 0;
    } catch {
      gone(way);
    }
  };
  return {
    listen() {
      isWanted = true;
      clearTimeout(ending);
      ending = setTimeout(() => void close(), listen_ms).unref();
      if (open === undefined && again === undefined) void begin();
    },
    close,
  };
}
