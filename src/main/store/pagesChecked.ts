import { closeSync, existsSync, openSync, readSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { threadProgram } from '../threadProgram.ts';
import { writeWhole } from '../writeWhole.ts';
import type { DatabaseProblem } from './databaseProblem.ts';
import { sizeOf } from './fileSize.ts';

/**
 * A file of up to so many bytes has every page looked at before it is opened: some tenths of a second (2.6 ms of processor a
 * megabyte, and what the disk takes to give it out). A larger one is looked through while the bench is at work.
 */
const atOnceUpTo_bytes = 64 * 1024 * 1024;

/** Stands beside a database in which damage was found at work: it is looked through, and what can be is saved, at the next start. */
const markOf = (file: string): string => join(dirname(file), 'axlewright.damaged');

/** Whether every page of this file is to be looked at before it is opened. */
export const isCheckedFirst = (file: string): boolean =>
  sizeOf(file) <= atOnceUpTo_bytes || existsSync(markOf(file)) || isShorterThanItSays(file);

/** Every page was looked at and nothing was found: what was marked has been mended, or another file put in its place. */
export const wasFoundWhole = (file: string): void => rmSync(markOf(file), { force: true });

/**
 * SQLite's header counts the pages (file format, 1.3.7; page size at byte 16, where 1 stands for 65,536). A file may rightly be
 * shorter, with its end still in the log: then it is only looked through.
 */
function isShorterThanItSays(file: string): boolean {
  const head = Buffer.alloc(32);
  const opened = openSync(file, 'r');
  try {
    if (readSync(opened, head, 0, head.length, 0) < head.length) return true;
  } finally {
    closeSync(opened);
  }
  const size = head.readUInt16BE(16);
  return head.readUInt32BE(28) * (size === 1 ? 65_536 : size) > sizeOf(file);
}

interface PageCheck {
  readonly file: string;
  readonly onProblem: (problem: DatabaseProblem) => void;
  /** For tests: how long after the start, ms. */
  readonly after_ms?: number;
  readonly onEnd?: () => void;
}

/** The person at the stand waits for other things in the first minutes. */
const after_ms = 120_000;

/**
 * Looks at every page of an open database, once, in a thread of its own, where that was not done before it was opened. Damage is
 * marked and told. @returns ends it
 */
export function checkPagesLater({ file, onProblem, after_ms: wait_ms = after_ms, onEnd }: PageCheck): () => void {
  let worker: Worker | undefined;
  const timer = setTimeout(() => {
    worker = new Worker(threadProgram(import.meta.dirname, 'pagesWorker'), { workerData: { file } });
    worker.unref();
    worker.once('message', (found: string) => {
      if (found !== 'ok') onProblem(marked(file, found));
    });
    // A thread that cannot run has found nothing: the next start, and every backup, look again.
    worker.once('error', () => undefined);
    worker.once('exit', () => onEnd?.());
  }, wait_ms).unref();
  return () => {
    clearTimeout(timer);
    void worker?.terminate();
  };
}

function marked(file: string, found: string): DatabaseProblem {
  try {
    writeWhole(markOf(file), `${found}\n`);
  } catch {
    // The disk takes nothing more: the person is told all the same, and the next start looks again.
  }
  return {
    kind: 'database-corrupt',
    sentence: `${file} is damaged (${found.replace(/\.$/u, '')}). What is recorded now may not be readable later.`,
    remedy:
      'End the bench and start it again: what can be read is taken into a new file, and the damaged one is kept. Then compare with a backup.',
  };
}
