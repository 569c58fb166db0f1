import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { systemClock } from '../../src/main/clock.ts';
import { createGauges } from '../../src/main/gauges/gauges.ts';
import { openJournal } from '../../src/main/journal/journal.ts';
import { openDatabase } from '../../src/main/store/database.ts';
import { startSenders } from './senders.ts';

/** Ten seconds each; `GAUGES_SECONDS=600` is the full ten minutes of four gauges, and one minute of the fast one. */
const longest_s = Number(process.env['GAUGES_SECONDS'] ?? 10);

/** Simulated gauges on real serial lines, read and journaled; how many lines are lost, and how long rows wait for the disk. */
export default async function bench(print: (line: string) => void): Promise<void> {
  await readGauges([100, 100, 100, 100], longest_s, print);
  await readGauges([2000], Math.max(10, longest_s / 10), print);
}

async function readGauges(rates: readonly number[], seconds: number, print: (line: string) => void): Promise<void> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'axlewright-bench-'));
  const opened = openDatabase(folder, systemClock);
  if (!opened.ok) throw new Error(opened.problem.sentence);
  const journal = openJournal(opened.value);
  const first = journal.last() + 1;
  const late_ms: number[] = [];
  const read = { lines: 0 };
  const gauges = createGauges({
    journal,
    clock: systemClock,
    onReadings: (readings) => {
      read.lines += readings.length;
      const last = readings.at(-1);
      if (last !== undefined) void untilDurable(journal, last.seq, late_ms);
    },
    onState: () => undefined,
  });
  const senders = await startSenders(rates, seconds);
  for (const [i, link] of senders.links.entries()) {
    const connected = await gauges.connect({ id: `gauge ${i}`, link });
    if (!connected.ok) throw new Error(connected.problem.sentence);
  }
  await pause(100);
  const before = process.cpuUsage();
  const sending = senders.run();
  const wanted = rates.reduce((sum, rate) => sum + rate * seconds, 0);
  for (let waited_s = 0; read.lines < wanted && waited_s < seconds + 5; waited_s += 0.1) await pause(100);
  await sending;
  const cpu = process.cpuUsage(before);
  journal.flush();
  print(
    `gauges: ${rates.join(' + ')} lines/s for ${seconds} s: sent ${wanted}, journaled in order ${inOrder(journal, rates.length, first)}, ` +
      `on disk after median ${quantile(late_ms, 0.5)} ms, p99 ${quantile(late_ms, 0.99)} ms, ` +
      `${((cpu.user + cpu.system) / 1e4 / seconds).toFixed(0)} % of a core`,
  );
  senders.end();
  await gauges.close();
  journal.close();
  opened.value.close();
  fs.rmSync(folder, { recursive: true, force: true });
}

/** Rows of every gauge that follow one another without a hole: value n is followed by n + 0.001. */
function inOrder(journal: ReturnType<typeof openJournal>, gauges: number, first: number): number {
  let good = 0;
  for (let i = 0; i < gauges; i += 1) {
    let expected = 0;
    for (const row of journal.stretch(`gauge ${i}`, first, journal.last())) {
      if (row.kind !== 'reading' || Math.round(row.value * 1000) !== expected) continue;
      expected += 1;
      good += 1;
    }
  }
  return good;
}

async function untilDurable(
  journal: { readonly durable: () => number },
  seq: number,
  late_ms: number[],
): Promise<void> {
  const began = performance.now();
  while (journal.durable() < seq) await pause(1);
  late_ms.push(performance.now() - began);
}

const quantile = (all: readonly number[], part: number): string => {
  const sorted = all.toSorted((a, b) => a - b);
  return (sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? Number.NaN).toFixed(1);
};

// oxlint-disable-next-line no-console -- run by hand, the bench prints
if (import.meta.main) await bench(console.log);
