import { closeSync, fsyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright';
import { openLoopback } from '../../src/main/hosts/loopback/host.ts';
import { listPageFiles } from '../../src/main/hosts/pageFiles.ts';
import { benchInNewFolder, valueOf } from '../support/bench/open.ts';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import { buildInTrial } from '../support/benchPage.ts';
import { goTo } from '../support/browser.ts';
import { openBareLoop } from './latency/bareLoop.ts';
import { type BrowserAlone, launchBrowserAlone } from './latency/browserAlone.ts';
import { type Noticed, noticedSoFar, timeScripts, watchTexts } from './latency/probe.ts';
import { startSenders } from './senders.ts';

const builtScreens = join(import.meta.dirname, '..', '..', 'out', 'renderer');
const seconds = Number(process.env['LATENCY_SECONDS'] ?? 20);
/**
 * The lines of this time are not counted: a bench is on all day, and a browser that was started a moment ago still
 * compiles (25 to 70 ms of a processor at a time) and does what it puts off for its first ten seconds.
 */
const warmUp_s = 15;

/**
 * From the last byte of a line written to a pseudo-terminal to the changed text on the page, in a real browser: the whole
 * bench with its journal, and beside it in the same run the bare loop without one.
 */
export default async function bench(print: (line: string) => void): Promise<void> {
  print(`disk: ${fsyncWords()}; load before ${loadWords()}`);
  const browser = await launchBrowserAlone();
  for (const rates of [[100, 100, 100, 100], [2000]]) {
    const bare = await measured(browser, rates, bareLoop);
    const whole = await measured(
      browser,
      rates,
      wholeBench(async () => ({ at: 'just-measure' })),
    );
    const name = `${rates.join(' + ')} lines/s`;
    print(`${name}, bare loop without journal: ${wordsOf(bare)}`);
    print(`${name}, bench: ${wordsOf(whole)}`);
    const ratio = quantile(whole.late_ms, 0.99) / quantile(bare.late_ms, 0.99);
    print(`${name}: p99 of the bench is ${ratio.toFixed(2)} times that of the bare loop; load ${loadWords()}`);
  }
  // Readings of four gauges with trace, ring and strip beside them: what counts there is the frames.
  const drawn = await measured(browser, [100, 100, 100, 100], wholeBench(atBacklash));
  print(`100 + 100 + 100 + 100 lines/s, bench at a backlash with its drawings: ${wordsOf(drawn)}; load ${loadWords()}`);
  await browser.close();
}

interface Figures {
  readonly late_ms: readonly number[];
  readonly missing: number;
  readonly frames_ms: readonly number[];
  readonly work_ms: readonly number[];
  readonly clocksApart: string;
}

/** What shows the lines: opens its page, gives the gauge of each sender, and what ends it. */
type Shows = (
  page: Page,
  links: readonly string[],
) => Promise<{ readonly ids: readonly string[]; readonly close: () => Promise<void> }>;

async function measured(browser: BrowserAlone, rates: readonly number[], shows: Shows): Promise<Figures> {
  const senders = await startSenders(rates, seconds + warmUp_s);
  const { ids, close, clocksApart } = await browser.with(async (page) => {
    await page.setViewportSize({ width: 1280, height: 800 });
    await page.addInitScript(timeScripts);
    const shown = await shows(page, senders.links);
    const clocksApart = await clocks(page);
    await page.evaluate(watchTexts);
    return { ...shown, clocksApart };
  });
  await pause(1500);
  const written = await senders.run();
  await pause(500);
  const noticed = await browser.with(async (page) => {
    const seen = await page.evaluate(noticedSoFar);
    await page.goto('about:blank');
    return seen;
  });
  await close();
  senders.end();
  return { ...lateness(noticed, ids, written, rates), clocksApart, ...afterWarmUp(noticed) };
}

/** Frames of the counted seconds only. */
function afterWarmUp({ frames_ms, work_ms }: Noticed): Pick<Figures, 'frames_ms' | 'work_ms'> {
  let passed_ms = 0;
  const from = frames_ms.findIndex((frame) => (passed_ms += frame) > warmUp_s * 1000);
  return { frames_ms: frames_ms.slice(from), work_ms: work_ms.slice(from) };
}

/**
 * How late each line's text was, counted to the first text that shows that line or a later one: of several lines that
 * come in one message only the last is written.
 */
function lateness(
  { texts }: Noticed,
  ids: readonly string[],
  written: readonly (readonly number[])[],
  rates: readonly number[],
): Pick<Figures, 'late_ms' | 'missing'> {
  const late_ms: number[] = [];
  let missing = 0;
  for (const [i, times] of written.entries()) {
    const shown = texts.filter(([gauge]) => gauge === ids[i]).map(([, text, at]) => [lineOf(text), at] as const);
    let next = 0;
    for (let line = warmUp_s * (rates[i] ?? 0); line < times.length; line += 1) {
      while ((shown[next]?.[0] ?? Infinity) < line) next += 1;
      const at = shown[next]?.[1];
      if (at === undefined) missing += 1;
      else late_ms.push(at - (times[line] ?? 0));
    }
  }
  return { late_ms, missing };
}

/** The n-th line says n thousandths of a millimetre. */
const lineOf = (text: string): number => Math.round(Number(text) * 1000);

async function atBacklash(service: BenchService): Promise<object> {
  const { build, trial } = await buildInTrial(service);
  return { at: 'check', build, assembly: trial, check: 'backlash' };
}

/** @param place the route of the screen that is looked at */
const wholeBench =
  (place: (service: BenchService) => Promise<object>): Shows =>
  async (page, links) => {
    const service = benchInNewFolder();
    const ids: string[] = [];
    for (const [i, link] of links.entries()) {
      const record = {
        label: `Indicator ${i + 1}`,
        kind: 'indicator',
        resolution: { value: 0.001, unit: 'mm' },
      } as const;
      const { id } = valueOf(await service.answers['gauges.save']({ gauge: { ...record, link } }));
      valueOf(await service.answers['gauges.plug-in']({ gauge: id }));
      ids.push(id);
    }
    const host = valueOf(await openLoopback({ service, files: valueOf(listPageFiles(builtScreens)) }));
    await page.goto(host.link);
    await goTo(page, await place(service));
    await page.locator('.strip-gauge').first().waitFor();
    const close = async (): Promise<void> => {
      await host.close();
      await service.close();
    };
    return { ids, close };
  };

const bareLoop: Shows = async (page, links) => {
  const paths = new Map(links.map((link, i) => [`gauge-${i}`, link.replace('serial:', '')] as const));
  const loop = await openBareLoop(paths);
  await page.goto(loop.link);
  return { ids: [...paths.keys()], close: () => loop.close() };
};

/** How far the page's wall clock is from ours, bounded by the quickest of many questions and answers. */
async function clocks(page: Page): Promise<string> {
  let best = { took: Infinity, apart: 0 };
  for (let i = 0; i < 100; i += 1) {
    const asked = performance.timeOrigin + performance.now();
    const there = await page.evaluate(() => performance.timeOrigin + performance.now());
    const answered = performance.timeOrigin + performance.now();
    if (answered - asked < best.took) best = { took: answered - asked, apart: there - (asked + answered) / 2 };
  }
  return `${best.apart.toFixed(2)} ms apart (± ${(best.took / 2).toFixed(2)})`;
}

function wordsOf({ late_ms, missing, frames_ms, work_ms, clocksApart }: Figures): string {
  const slow = frames_ms.filter((frame) => frame > 25).length / frames_ms.length;
  return (
    `byte to text median ${quantile(late_ms, 0.5).toFixed(1)}, p99 ${quantile(late_ms, 0.99).toFixed(1)}, ` +
    `most ${quantile(late_ms, 1).toFixed(1)} ms (${late_ms.length} lines, ${missing} not seen); ` +
    `${(slow * 100).toFixed(1)} % of ${frames_ms.length} frames over 25 ms; ` +
    `scripts p99 ${quantile(work_ms, 0.99).toFixed(1)} ms a frame; clocks ${clocksApart}`
  );
}

function fsyncWords(): string {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-bench-'));
  const file = openSync(join(folder, 'sync'), 'w');
  const took_ms = Array.from({ length: 200 }, () => {
    writeSync(file, Buffer.alloc(4096));
    const began = performance.now();
    fsyncSync(file);
    return performance.now() - began;
  });
  closeSync(file);
  rmSync(folder, { recursive: true, force: true });
  return `fsync median ${quantile(took_ms, 0.5).toFixed(2)}, p99 ${quantile(took_ms, 0.99).toFixed(2)} ms`;
}

const loadWords = (): string =>
  loadavg()
    .map((load) => load.toFixed(1))
    .join(' ');

function quantile(all: readonly number[], part: number): number {
  const sorted = all.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? Number.NaN;
}

// oxlint-disable-next-line no-console -- run by hand, the bench prints
if (import.meta.main) await bench(console.log);
