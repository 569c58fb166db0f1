import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { z } from 'zod';
import { systemClock } from '../../src/main/clock.ts';
import { openJournal } from '../../src/main/journal/journal.ts';
import { settleStep } from '../../src/main/journal/settle.ts';
import { openBench } from '../../src/main/bench/bench.ts';
import { type Database, databaseName, openDatabase } from '../../src/main/store/database.ts';
import type { Result } from '../../src/shared/basics/result.ts';
import { writeBuilds, writeLongBuild, writeReadings } from './records/made.ts';

export const takesWords = true;

/** What was promised for 10,000 builds and 50 million kept readings. */
const wanted = { ask_ms: 50, open_ms: 100, write_ms: 20, stall_ms: 16, memory_MB: 300, reading_B: 20 } as const;

const answersSchema = z.object({
  opened_ms: z.number(),
  rss_MB: z.number(),
  withPapers_MB: z.number(),
  answers: z.array(
    z.object({
      what: z.string(),
      median_ms: z.number(),
      worst_ms: z.number(),
      processor_ms: z.number(),
      stall_ms: z.number(),
    }),
  ),
});

function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problem.sentence);
  return result.value;
}

/**
 * A shop after years of work: `npm run bench records [BUILDS] [MILLIONS of kept readings] [FOLDER]`, 1,000 and 1 without words.
 * The records are made by a script and packed by the bench's own code; then a bench of its own process is asked. With a folder
 * they are made there and stay, and where they are there already they are only asked.
 */
export default async function bench(print: (line: string) => void, words: readonly string[]): Promise<void> {
  const builds = Number(words[0] ?? 1000);
  const millions = Number(words[1] ?? 1);
  const folder = words[2] ?? mkdtempSync(join(tmpdir(), 'axlewright-bench-'));
  try {
    if (!existsSync(join(folder, databaseName))) await make({ folder, builds, millions }, print);
    addLongBuild(folder, print);
    printAsked(folder, builds, print);
  } finally {
    if (words[2] === undefined) rmSync(folder, { recursive: true, force: true });
  }
}

interface Shop {
  readonly folder: string;
  readonly builds: number;
  readonly millions: number;
}

async function make({ folder, builds, millions }: Shop, print: (line: string) => void): Promise<void> {
  await valueOf(openBench({ folder, clock: systemClock, version: 'bench' })).close();
  const database = valueOf(openDatabase(folder, systemClock));
  printMade(database, { builds, millions }, print);
  printSettled(database, print);
  database.close();
}

const seconds = (began_ms: number): string => ((performance.now() - began_ms) / 1000).toFixed(0);

function addLongBuild(folder: string, print: (line: string) => void): void {
  const database = valueOf(openDatabase(folder, systemClock));
  const { entries, readings } = writeLongBuild(database);
  print(`a long build: ${entries} entries, its measurements rest on ${readings} readings`);
  database.close();
}

function printMade(
  database: Database,
  { builds, millions }: { readonly builds: number; readonly millions: number },
  print: (line: string) => void,
): void {
  let began = performance.now();
  const entries = writeBuilds(database, builds);
  print(`made: ${builds} builds of ${Math.round(entries / builds)} entries in ${seconds(began)} s`);
  began = performance.now();
  const readings = millions * 1e6;
  const bytes = writeReadings(database, readings);
  database.sql.pragma('wal_checkpoint(TRUNCATE)');
  const onDisk = Number(
    database.sql
      .prepare("SELECT sum(pgsize) FROM dbstat WHERE name IN ('journal_block', 'journal_block_to', 'kept')")
      .pluck()
      .get(),
  );
  print(`made: ${millions} million kept readings in ${seconds(began)} s, packed without their time in the journal`);
  print(
    `a kept reading: ${(bytes / readings).toFixed(1)} bytes packed, ${(onDisk / readings).toFixed(1)} on disk, raw bytes included (wanted ${wanted.reading_B})`,
  );
  print(`database: ${(statSync(database.path).size / 1e6).toFixed(0)} MB`);
}

/** What it takes to move rows from the journal into blocks: each step holds up the gauges. */
function printSettled(database: Database, print: (line: string) => void): void {
  const journal = openJournal(database);
  const from = journal.last() + 1;
  for (let n = 0; n < 50_000; n += 1) {
    const value = Math.round(200 + 80 * Math.sin(n / 40)) / 1000;
    journal.append({
      kind: 'reading',
      gauge: 'dial',
      t: n / 100,
      at: 1e12 + n * 10,
      value,
      unit: 'mm',
      raw: Buffer.from(`${value.toFixed(3)} mm\r\n`),
    });
    if (n % 500 === 0) journal.flush();
  }
  journal.flush();
  journal.keep(from, journal.last(), 'measurement');
  const steps: number[] = [];
  const before = process.cpuUsage();
  for (let more = true; more;) {
    const began = performance.now();
    const step = settleStep(database, { safe: journal.durable(), beforeAt_ms: 0 });
    if (step.packed > 0) steps.push(performance.now() - began);
    more = step.more;
  }
  const { user, system } = process.cpuUsage(before);
  journal.close();
  const at = (part: number): string =>
    (steps.toSorted((a, b) => a - b)[Math.min(steps.length - 1, Math.floor(steps.length * part))] ?? 0).toFixed(1);
  print(
    `settling: ${steps.length} steps of 1,024 rows, ${((user + system) / 1000 / steps.length).toFixed(1)} ms of processor each; waited for, median ${at(0.5)} ms, p95 ${at(0.95)} ms, worst ${at(1)} ms (wanted ${wanted.stall_ms})`,
  );
}

function printAsked(folder: string, builds: number, print: (line: string) => void): void {
  const script = join(import.meta.dirname, 'records', 'asked.ts');
  const out = execFileSync(process.execPath, [script, folder, String(builds)], {
    encoding: 'utf8',
    maxBuffer: 2 ** 24,
  });
  const { opened_ms, answers, rss_MB, withPapers_MB } = answersSchema.parse(JSON.parse(out));
  print(
    `bench: opened and checked in ${(opened_ms / 1000).toFixed(2)} s, ${rss_MB.toFixed(0)} MB in use (wanted ${wanted.memory_MB}), ${withPapers_MB.toFixed(0)} after papers were made in threads`,
  );
  for (const { what, median_ms, worst_ms, processor_ms, stall_ms } of answers) {
    print(
      `  ${what.padEnd(40)} median ${median_ms.toFixed(1).padStart(6)} ms, worst ${worst_ms.toFixed(1).padStart(6)} ms, ${processor_ms.toFixed(1).padStart(5)} ms of processor, gauges unheard ${stall_ms.toFixed(1).padStart(5)} ms at most`,
    );
  }
  print(
    `wanted: list and search ${wanted.ask_ms} ms, open ${wanted.open_ms} ms, a write ${wanted.write_ms} ms, unheard ${wanted.stall_ms} ms`,
  );
}

// oxlint-disable-next-line no-console -- run by hand, the bench prints
if (import.meta.main) await bench(console.log, process.argv.slice(2));
