import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads';
import { threadProgram } from '../../threadProgram.ts';
import type { JournalRow } from '../entry.ts';
import type { Refused, WordFromThread, WordToThread } from './words.ts';

/** What became of rows that were sent: nothing more to say where they are on disk, otherwise why not. */
export type Answer = Refused | undefined;

/** A thread that writes rows of the journal with a connection of its own to the database. */
export interface RowsApart {
  /** Begins the thread; it takes rows some tens of milliseconds later. Asked again it does nothing. */
  readonly begin: () => void;
  /** Whether it takes rows now: the database is open there and no rows are under way. */
  readonly isFree: () => boolean;
  /** Sends rows; what becomes of them is told by and by, or within `wait`. */
  readonly send: (rows: readonly JournalRow[]) => void;
  /** Blocks until it is known what became of the rows under way. Gives up after half a minute: a disk that hangs. */
  readonly wait: () => void;
  /** Blocks until the thread has closed its connection; it takes no rows any more. */
  readonly end: () => void;
}

/** A thread that is writing has answered by then, or its disk hangs, ms. */
const longest_ms = 30_000;
const longestEnd_ms = 5000;

interface RowsApartOptions {
  /** The database file. */
  readonly file: string;
  /** Told once for all rows sent at a time. */
  readonly onAnswer: (answer: Answer) => void;
}

/** @param options `onAnswer` is called from an event, or inside `wait` and `end` */
export function rowsApart({ file, onAnswer }: RowsApartOptions): RowsApart {
  let thread: Thread | undefined;
  let state: 'none' | 'opening' | 'free' | 'writing' | 'ended' = 'none';

  const hear = (word: WordFromThread): void => {
    const wasWriting = state === 'writing';
    if (state !== 'ended') state = word.kind === 'closed' ? 'ended' : 'free';
    if (!wasWriting) return;
    thread?.hold(false);
    onAnswer(word.kind === 'refused' ? word : undefined);
  };
  const died = (why: string): void => {
    const wasWriting = state === 'writing';
    state = 'ended';
    if (wasWriting) onAnswer({ kind: 'refused', code: 'EIO', message: why });
  };

  return {
    begin() {
      if (state !== 'none') return;
      state = 'opening';
      thread = startThread(file, hear, died);
    },
    isFree: () => state === 'free',
    send(rows) {
      state = 'writing';
      thread?.hold(true);
      thread?.tell(rows);
    },
    wait: () => thread?.hearUntil(() => state !== 'writing', longest_ms),
    end() {
      if (state !== 'none' && state !== 'ended') {
        thread?.tell('end');
        thread?.hearUntil(() => state === 'ended', longestEnd_ms);
      }
      state = 'ended';
      thread?.stop();
    },
  };
}

interface Thread {
  readonly tell: (word: WordToThread) => void;
  /** While rows are under way they hold the process. */
  readonly hold: (on: boolean) => void;
  /** Hears words without going back to the events, until `enough` or the time is up. */
  readonly hearUntil: (enough: () => boolean, most_ms: number) => void;
  readonly stop: () => void;
}

function startThread(file: string, hear: (word: WordFromThread) => void, died: (why: string) => void): Thread {
  const { port1: port, port2: theirs } = new MessageChannel();
  const said = new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT);
  const counter = new Int32Array(said);
  const worker = new Worker(threadProgram(import.meta.dirname, 'rowsWorker'), {
    workerData: { file, port: theirs, said },
    transferList: [theirs],
  });
  worker.unref();
  worker.on('error', (error) => died(String(error)));
  worker.on('exit', () => died('its thread ended'));
  port.on('message', hear);
  port.unref();
  return {
    tell: (word) => port.postMessage(word),
    hold: (on) => (on ? port.ref() : port.unref()),
    hearUntil(enough, most_ms) {
      const until = performance.now() + most_ms;
      while (!enough()) {
        // Read before the look at the port: a word that comes between the two is not slept through.
        const before = Atomics.load(counter, 0);
        const next: { readonly message: WordFromThread } | undefined = receiveMessageOnPort(port);
        if (next !== undefined) hear(next.message);
        else if (performance.now() > until) return;
        else Atomics.wait(counter, 0, before, Math.min(100, most_ms));
      }
    },
    stop: () => {
      port.close();
      void worker.terminate();
    },
  };
}
