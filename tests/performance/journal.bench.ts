import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { systemClock } from '../../src/main/clock.ts';
import { type Journal, openJournal } from '../../src/main/journal/journal.ts';
import { openDatabase } from '../../src/main/store/database.ts';

const perSecond = 50;
const day = 8 * 3600 * perSecond;

/** How fast the journal writes durably and how fast a day of it is read back, beside what the disk alone can do. */
export default async function bench(print: (line: string) => void): Promise<void> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'axlewright-bench-'));
  try {
    printFsync(folder, print);
    const opened = openDatabase(folder, systemClock);
    if (!opened.ok) throw new Error(opened.problem.sentence);
    const journal = openJournal(opened.value);
    printGroups(journal, print);
    const from = writeDay(journal, print);
    replayDay(journal, from, print);
    journal.close();
    opened.value.close();
    printOpening(folder, print);
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

const seconds = (began_ms: number): number => (performance.now() - began_ms) / 1000;

const quantile = (all: readonly number[], part: number): string => {
  const sorted = all.toSorted((a, b) => a - b);
  return (sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? Number.NaN).toFixed(2);
};

function append(journal: Journal, i: number): number {
  const value = Math.round(200 + 80 * Math.sin(i / 40)) / 1000;
  const raw = Buffer.from(`${value.toFixed(3)} mm`);
  return journal.append({
    kind: 'reading',
    gauge: 'bench',
    t: i / perSecond,
    at: 1e12 + i * 20,
    value,
    unit: 'mm',
    raw,
  });
}

function printFsync(folder: string, print: (line: string) => void): void {
  const file = fs.openSync(path.join(folder, 'sync'), 'w');
  const times = Array.from({ length: 200 }, () => {
    const began = performance.now();
    fs.writeSync(file, Buffer.alloc(4096));
    fs.fsyncSync(file);
    return performance.now() - began;
  });
  fs.closeSync(file);
  print(`disk: 4 kB written and synced: median ${quantile(times, 0.5)} ms, p99 ${quantile(times, 0.99)} ms`);
}

/** Groups as they are at work: what four gauges at 100/s give in 10 ms, and larger. */
function printGroups(journal: Journal, print: (line: string) => void): void {
  for (const size of [1, 4, 20, 100, 1000]) {
    const groups = size > 100 ? 50 : 300;
    const times: number[] = [];
    const began = performance.now();
    for (let group = 0; group < groups; group += 1) {
      for (let i = 0; i < size; i += 1) append(journal, i);
      const start = performance.now();
      if (!journal.flush().ok) throw new Error('the disk refused');
      times.push(performance.now() - start);
    }
    const rate = Math.round((groups * size) / seconds(began));
    print(
      `journal: groups of ${size}: ${rate} durable rows/s, a group median ${quantile(times, 0.5)} ms, p99 ${quantile(times, 0.99)} ms`,
    );
  }
}

function writeDay(journal: Journal, print: (line: string) => void): number {
  const began = performance.now();
  const from = append(journal, 0);
  for (let i = 1; i < day; i += 1) {
    append(journal, i);
    if (i % 1000 === 0) journal.flush();
  }
  journal.flush();
  print(`journal: a day (${day} readings) written in ${seconds(began).toFixed(2)} s`);
  return from;
}

function replayDay(journal: Journal, from: number, print: (line: string) => void): void {
  const began = performance.now();
  let rows = 0;
  let sum = 0;
  for (const row of journal.stretch('bench', from, from + day - 1, { bytes: false })) {
    rows += 1;
    if (row.kind === 'reading') sum += row.value;
  }
  const took = seconds(began);
  print(
    `journal: a day (${rows} readings) replayed in ${took.toFixed(2)} s (limit 5 s); mean ${(sum / rows).toFixed(4)}`,
  );
}

function printOpening(folder: string, print: (line: string) => void): void {
  const began = performance.now();
  const opened = openDatabase(folder, systemClock);
  const took = seconds(began);
  if (!opened.ok) throw new Error(opened.problem.sentence);
  const size = fs.statSync(opened.value.path).size / 1e6;
  opened.value.close();
  print(`database: ${size.toFixed(0)} MB opened and checked in ${took.toFixed(2)} s`);
}

// oxlint-disable-next-line no-console -- run by hand, the bench prints
if (import.meta.main) await bench(console.log);
