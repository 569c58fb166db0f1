// A bench of its own on a made data folder: asked as the screens ask, while a gauge sends. Prints what it took as JSON.
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { setTimeout as rest } from 'node:timers/promises';
import { openBench } from '../../../src/main/bench/bench.ts';
import { systemClock } from '../../../src/main/clock.ts';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { longBuild } from './made.ts';
import type { Result } from '../../../src/shared/basics/result.ts';

const [folder = '', builds = '0'] = process.argv.slice(2);
const usually = 40;

interface Took {
  readonly what: string;
  readonly median_ms: number;
  readonly worst_ms: number;
  /** Processor time of one, which does not rise with what else the machine does. */
  readonly processor_ms: number;
  /** Longest time in which the bench heard no gauge meanwhile. */
  readonly stall_ms: number;
}

function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problem.sentence);
  return result.value;
}

/** Asks again and again, with a rest between, as a person does. */
async function took(what: string, ask: (turn: number) => Promise<unknown>, times = usually): Promise<Took> {
  const each: number[] = [];
  const loop = monitorEventLoopDelay({ resolution: 1 });
  loop.enable();
  let processor_us = 0;
  for (let turn = 0; turn < times; turn += 1) {
    const [began, before] = [performance.now(), process.cpuUsage()];
    await ask(turn);
    each.push(performance.now() - began);
    const { user, system } = process.cpuUsage(before);
    processor_us += user + system;
    await rest(15);
  }
  loop.disable();
  each.sort((a, b) => a - b);
  return {
    what,
    median_ms: each[Math.floor(times / 2)] ?? 0,
    worst_ms: each.at(-1) ?? 0,
    processor_ms: processor_us / 1000 / times,
    stall_ms: loop.max / 1e6,
  };
}

const build = (turn: number): string => `b${(turn * 7919) % Number(builds)}`;

async function asked({ answers }: BenchService): Promise<readonly Took[]> {
  const list = (sought: Parameters<(typeof answers)['builds.list']>[0]) => async () =>
    valueOf(await answers['builds.list'](sought));
  const deed = { kind: 'noted', topic: 'note', text: 'Oil filled, level checked.' } as const;
  return [
    await took('nothing (baseline)', async () => undefined),
    await took('list, first page', list({})),
    await took('list, a page in the middle', list({ before: build(5) })),
    await took('search, common words', list({ words: 'hums rear' })),
    await took('search, a plate', async (turn) => list({ words: `ax${1000 + turn * 13}` })()),
    await took('search, two letters', list({ words: 'qx' })),
    await took('search, nothing found', list({ words: 'quokka' })),
    await took('builds of this customer', async (turn) => list({ alike: { build: build(turn), in: 'customer' } })()),
    await took('comebacks due', list({ which: 'comeback-due' })),
    await took('counts', async () => valueOf(await answers['builds.counts']({}))),
    await took('spec sheets', async () => valueOf(await answers['spec-sheets.list']({}))),
    await took('open a build', async (turn) => valueOf(await answers['builds.read']({ build: build(turn) }))),
    await took('write into a build', async (turn) =>
      valueOf(await answers['builds.write']({ build: build(turn % 3), by: 'A. Tester', deed })),
    ),
    await took('readings of a measurement, 3,000 rows', async (turn) =>
      valueOf(await answers['gauges.heard']({ gauge: 'dial', from: 2000 + turn * 20_000, to: 5000 + turn * 20_000 })),
    ),
  ];
}

/** Papers are made in threads of their own, which take memory while they run. */
async function papers({ answers }: BenchService): Promise<readonly Took[]> {
  const pages = { build: longBuild, page: 'a4', units: 'metric', pixelsWide: 400, first: true } as const;
  const bundle = { build: longBuild, as: 'bundle' } as const;
  return [
    await took(
      'certificate of the long build, pages',
      async () => valueOf(await answers['certificate.pictures'](pages)),
      3,
    ),
    await took('bundle of the long build', async () => valueOf(await answers['exports.make'](bundle)), 3),
  ];
}

const began = performance.now();
const service = valueOf(openBench({ folder, clock: systemClock, version: 'bench' }));
const opened_ms = performance.now() - began;
const answers = await asked(service);
const rss_MB = process.memoryUsage().rss / 1e6;
const made = await papers(service);
const withPapers_MB = process.memoryUsage().rss / 1e6;
await service.close();
process.stdout.write(JSON.stringify({ opened_ms, answers: [...answers, ...made], rss_MB, withPapers_MB }));
