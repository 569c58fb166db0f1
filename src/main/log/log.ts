import { appendFile, mkdir, rename, stat } from 'node:fs/promises';
import { closeSync, openSync, readSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Clock } from '../clock.ts';
import { createFloodGate } from './floodGate.ts';
import type { LogEvent } from './logEvent.ts';

/** An event with its wall time (ISO 8601) and the seconds of this run. */
export type LogLine = LogEvent & { readonly at: string; readonly t: number };

/** What happened to the bench, for whoever has to find out later. */
export interface Log {
  note(event: LogEvent): void;
  /** The last events, oldest first, those of earlier runs among them. */
  recent(): readonly LogLine[];
  /** Settles when everything noted so far is in the file, or cannot be put there. */
  close(): Promise<void>;
}

/** A report holds this many events. */
export const recentEvents = 200;
const largestFile_bytes = 1024 * 1024;
/** The file written to, and as many older ones. */
const olderFiles = 4;
/** What waits while the disk refuses; more is dropped, because the log must never be what fills the memory. */
const mostWaiting_chars = 256 * 1024;

const logFile = (folder: string): string => join(folder, 'log', 'bench.jsonl');
const olderFile = (folder: string, age: number): string => join(folder, 'log', `bench.${age}.jsonl`);

/**
 * Opens the log of a data folder: JSON lines, a megabyte a file. It is written beside the work, never by the thread that
 * journals readings, and a disk that refuses it stops nothing.
 */
export function openLog(folder: string, clock: Clock): Log {
  const recent: LogLine[] = lastLines(logFile(folder));
  let waiting = '';
  let writing: Promise<void> | undefined;

  const write = async (): Promise<void> => {
    while (waiting !== '') {
      const text = waiting;
      waiting = '';
      // Never the data folder itself: where it was taken away, another in its place would keep it from coming back.
      await mkdir(join(folder, 'log'), { mode: 0o700 }).catch(() => undefined);
      const about = await stat(logFile(folder)).catch(() => undefined);
      // A pipe or a device in its place would be waited for, and with it the end of the bench.
      if (about?.isFile() === false) return;
      if ((about?.size ?? 0) >= largestFile_bytes) await makeRoom(folder);
      await appendFile(logFile(folder), text, { mode: 0o600 });
    }
  };
  const begin = (): void => {
    writing ??= write()
      // The bench itself tells that the disk refuses.
      .catch(() => undefined)
      .finally(() => (writing = undefined));
  };
  const gate = createFloodGate((event) => {
    const at = new Date(clock.wall_ms()).toISOString();
    const line: LogLine = { at, t: Math.round(clock.monotonic_s() * 1000) / 1000, ...event };
    recent.push(line);
    if (recent.length > recentEvents) recent.shift();
    if (waiting.length < mostWaiting_chars) waiting += `${JSON.stringify(line)}\n`;
    begin();
  }, clock.monotonic_s);
  return {
    note: gate.note,
    recent: () => [...recent],
    async close() {
      gate.close();
      await writing;
    },
  };
}

/** A log that keeps nothing, for a bench without a folder. */
export const noLog: Log = { note: () => undefined, recent: () => [], close: async () => undefined };

async function makeRoom(folder: string): Promise<void> {
  for (let age = olderFiles - 1; age >= 1; age -= 1)
    await rename(olderFile(folder, age), olderFile(folder, age + 1)).catch(() => undefined);
  await rename(logFile(folder), olderFile(folder, 1));
}

const tail_bytes = 64 * 1024;

/** The last lines of an earlier run. A line that was cut off is left out. */
function lastLines(file: string): LogLine[] {
  const size = statSync(file, { throwIfNoEntry: false })?.size ?? 0;
  if (size === 0) return [];
  const bytes = Buffer.alloc(Math.min(size, tail_bytes));
  try {
    const opened = openSync(file, 'r');
    readSync(opened, bytes, 0, bytes.length, size - bytes.length);
    closeSync(opened);
  } catch {
    return [];
  }
  return bytes
    .toString('utf8')
    .split('\n')
    .flatMap((line) => lineFrom(line) ?? [])
    .slice(-recentEvents);
}

function lineFrom(text: string): LogLine | undefined {
  try {
    const line: unknown = JSON.parse(text);
    return typeof line === 'object' && line !== null && 'kind' in line ? (line as LogLine) : undefined;
  } catch {
    return undefined;
  }
}
