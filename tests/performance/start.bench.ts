import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { launchBrowser } from '../support/browser.ts';
import { layEarlierRecords, linkOf } from '../support/installed.ts';
import { median } from '../../src/shared/basics/statistics.ts';
import { layPayload } from '../../src/main/hosts/package/payload.ts';
import { plans, streams } from './answers/inputs.ts';

const root = join(import.meta.dirname, '..', '..');
const times = 9;

interface Cost {
  readonly processor_s: number;
  readonly wall_s: number;
}

/**
 * How long a person waits for the program as it is installed: processor time and wall time of the command line, and the way
 * from the start to the link and on to live digits. Beside each stands Node doing nothing, in the same run.
 */
export default async function start(print: (line: string) => void): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-start-'));
  const payload = join(folder, 'axlewright');
  await layPayload({ root, to: payload, system: 'linux-x64', node: process.execPath });
  const bundled = [join(payload, 'node'), join(payload, 'program', 'axlewright.js')];
  const sources = [process.execPath, join(root, 'src/main/cli/axlewright.ts')];
  const stream = join(folder, 'stream.jsonl');
  const builds = join(folder, 'plan.jsonl');
  const [backlash] = streams;
  writeFileSync(stream, linesOf(backlash?.lines ?? []));
  writeFileSync(builds, linesOf(plans.lines.slice(0, 1)));
  print(`load ${loadavg()[0]?.toFixed(1)}; medians of ${times}; processor time is user and system together`);
  print('                                    processor      wall   | from the sources');
  const records = join(folder, 'records');
  const build = await earlierBuild(bundled, records);
  const rows: readonly (readonly [string, readonly string[], number?])[] = [
    ['--help', ['--help'], 0.15],
    [`measure backlash, ${backlash?.lines.length} lines`, ['measure', 'backlash', '--in', stream], 0.3],
    ['plan, one build', ['plan', '--in', builds], 0.4],
    ['certificate, 48 entries', ['export', '--build', build, '--as', 'pdf', '--out', folder, '--data', records], 1],
  ];
  row(
    print,
    'Node alone (baseline)',
    costOf([join(payload, 'node'), '-e', '0']),
    costOf([process.execPath, '-e', '0']),
  );
  for (const [name, words, wanted] of rows)
    row(
      print,
      `${name}${wanted === undefined ? '' : ` (wanted ${wanted} s)`}`,
      costOf([...bundled, ...words]),
      costOf([...sources, ...words]),
    );
  await untilLive(print, bundled, folder);
  rmSync(folder, { recursive: true, force: true });
}

/** The build in the records of 0.1.0, opened once by this version. */
async function earlierBuild([node = '', script = '']: readonly string[], records: string): Promise<string> {
  mkdirSync(records);
  layEarlierRecords(records);
  const opened = spawn(node, [script, 'open', '--browser', '--data', records], { stdio: ['ignore', 'pipe', 'ignore'] });
  await linkOf(opened);
  await end(opened);
  const { stdout } = spawnSync(node, [script, 'builds', '--data', records], { encoding: 'utf8' });
  const [first] = JSON.parse(stdout) as readonly { readonly id: string }[];
  return first?.id ?? '';
}

const row = (print: (line: string) => void, name: string, installed: Cost, sources: Cost): void =>
  print(
    `${name.padEnd(46)}${seconds(installed.processor_s)}  ${seconds(installed.wall_s)}   | ${seconds(sources.processor_s)}  ${seconds(sources.wall_s)}`,
  );

const linesOf = (lines: readonly unknown[]): string => lines.map((line) => `${JSON.stringify(line)}\n`).join('');

const seconds = (value: number): string => `${value.toFixed(3)} s`;

/** Of one command, run often; the shell counts the processor time of its children. */
function costOf(words: readonly string[]): Cost {
  const all = Array.from({ length: times }, () => {
    const timed = `TIMEFORMAT='%U %S %R'; time "$@" >/dev/null 2>&1`;
    const { stderr } = spawnSync('bash', ['-c', timed, 'bash', ...words], { encoding: 'utf8' });
    const [user = Number.NaN, system = Number.NaN, wall = Number.NaN] = stderr.trim().split(' ').map(Number);
    return { processor_s: user + system, wall_s: wall };
  });
  return {
    processor_s: median(all.map(({ processor_s }) => processor_s)),
    wall_s: median(all.map(({ wall_s }) => wall_s)),
  };
}

/** From the start to the link, and from the link to digits that change, in a browser that is open already. */
async function untilLive(print: (line: string) => void, program: readonly string[], folder: string): Promise<void> {
  const browser = await launchBrowser();
  const toLink_s: number[] = [];
  const toDigits_s: number[] = [];
  const processor_s: number[] = [];
  const pages_ms: (readonly [string, number])[] = [];
  const [node = '', script = ''] = program;
  for (let turn = 0; turn < 5; turn += 1) {
    const begun = performance.now();
    const bench = spawn(node, [script, 'open', '--browser', '--simulate', '--data', join(folder, `records-${turn}`)], {
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    const link = await linkOf(bench);
    toLink_s.push((performance.now() - begun) / 1000);
    processor_s.push(processorOf(bench));
    const page = await (await browser.newContext()).newPage();
    const asked = performance.now();
    await page.goto(link);
    await page
      .locator('.strip .live__digits')
      .getByText(/\d\.\d{2}/u)
      .first()
      .waitFor();
    toDigits_s.push((performance.now() - asked) / 1000);
    pages_ms.push(...(await pageChanges(page)));
    await page.context().close();
    await end(bench);
  }
  await browser.close();
  print(
    `start to link: first ${seconds(toLink_s[0] ?? Number.NaN)}, median ${seconds(median(toLink_s))} (wanted 1.0 s warm); processor until then ${seconds(median(processor_s))}`,
  );
  print(
    `link to live digits: first ${seconds(toDigits_s[0] ?? Number.NaN)}, median ${seconds(median(toDigits_s))} (wanted 1.0 s warm)`,
  );
  for (const name of new Set(pages_ms.map(([page]) => page))) {
    const all = pages_ms.flatMap(([page, took]) => (page === name ? [took] : []));
    print(
      `page change to ${name}: median ${median(all).toFixed(0)} ms, longest ${Math.max(...all).toFixed(0)} ms (wanted 100 ms)`,
    );
  }
}

/** From the wish for a screen to the second frame with it, while two simulated gauges send; each screen twice, the first one cold. */
function pageChanges(page: Page): Promise<(readonly [string, number])[]> {
  return page.evaluate(async () => {
    const took: [string, number][] = [];
    for (const at of ['just-measure', 'gauges', 'builds', 'just-measure', 'gauges', 'builds']) {
      const begun = performance.now();
      history.pushState({ at }, '');
      dispatchEvent(new PopStateEvent('popstate', { state: { at } }));
      await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
      took.push([at, performance.now() - begun]);
      await new Promise((resolve) => setTimeout(resolve, 150));
    }
    return took;
  });
}

/** User and system time of a process so far (proc(5): fields 14 and 15, in hundredths of a second). */
function processorOf({ pid }: ChildProcess): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
  return (Number(fields[11]) + Number(fields[12])) / 100;
}

const end = (bench: ChildProcess): Promise<void> =>
  new Promise((resolve) => {
    bench.once('exit', () => resolve());
    bench.kill('SIGTERM');
  });
