// `npm run soak -- --hours 0.1`: the whole bench at work with four gauges while everything goes wrong, and what is left of it.
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { seeded } from '../../hardware-sim/seeded.ts';
import type { BenchClient } from '../../src/shared/contract/contract.ts';
import { type BenchUnderTest, startBench } from './benchUnderTest.ts';
import { type WeightThen, weightWords } from './weights.ts';
import { smallDisk } from './disk.ts';
import { makeNoise, sendMessages } from './atLength.ts';
import { type FuzzCount, type Fuzzing, startFuzz } from './fuzz.ts';
import { mischiefs } from './mischief.ts';
import { knownTo } from './known.ts';
import { type Cuts, cutJournal } from './powerCut.ts';
import { cutBench } from './benchCuts.ts';
import { whyNoCuts } from './fileDisk.ts';
import { openStandGauges } from './standGauges.ts';
import { openLedger, plugIn, verify, workOnce } from './worker.ts';

const { values } = parseArgs({
  options: {
    hours: { type: 'string', default: '0.1' },
    seed: { type: 'string', default: '1' },
    /** How long a life is between two ends, s, on average; the last fifth of the hours is one life. */
    life: { type: 'string', default: '24' },
    /** Power cuts of the journal alone, and as many of the whole bench. */
    cuts: { type: 'string' },
    fuzz: { type: 'boolean', default: true },
    /** MB of noise through the lines of the gauges. */
    noise: { type: 'string', default: '0' },
    /** Hostile messages one after another, beside those of the lives. */
    messages: { type: 'string', default: '0' },
  },
});
const hours = Number(values.hours);
const cuts = values.cuts === undefined ? Math.min(200, Math.round(100 * hours)) : Number(values.cuts);
const [noise_MB, messages, life_s] = [Number(values.noise), Number(values.messages), Number(values.life)];
if (!(hours >= 0 && cuts >= 0 && noise_MB >= 0 && messages >= 0 && life_s > 0)) {
  process.stderr.write(
    '--hours, --life, --cuts, --noise and --messages are numbers, like --hours 0.1 --cuts 10 --noise 20.\n',
  );
  process.exit(2);
}
const say = (line: string): void => void process.stdout.write(`${line}\n`);
const chance = seeded(Number(values.seed));
const random = (): number => chance.next();
const between = (least: number, most: number): number => least + (most - least) * random();
const pause = (ms: number): Promise<void> => new Promise((resolve) => void setTimeout(resolve, ms));

const disk = smallDisk(Math.round(200 + 400 * hours));
const data = join(disk.folder, 'data');
mkdirSync(data);
const stand = await openStandGauges(4, 50);
const ledger = openLedger();
const { faults } = ledger;
const done: Record<string, number> = {};
const starts_ms: number[] = [];
const noticed_ms: number[] = [];
/** No mischief takes half as long, on a busy machine too; one that does has stopped the bench, or the soak. */
const mostMischief_ms = 180_000;
const seenDefects = new Set<string>();
const weights: WeightThen[] = [];
const totals = { messages: 0, taken: 0, refused: 0, unanswered: 0 };
const count = (what: string): void => void (done[what] = (done[what] ?? 0) + 1);

const running: { bench?: BenchUnderTest } = {};
// Whoever ends the soak finds nothing left running and nothing mounted.
for (const signal of ['SIGINT', 'SIGTERM'] as const)
  process.once(signal, () => {
    running.bench?.process.kill('SIGKILL');
    disk.remove();
    process.exit(130);
  });

const began = performance.now();
const elapsed_s = (): number => (performance.now() - began) / 1000;
say(
  `soak: ${hours} h, seed ${values.seed}, ${disk.own ? 'a disk of its own' : 'no disk of its own, so none is filled'}`,
);

let turn = 0;
let told = 0;
// The last fifth is one life, so that a slope of memory can be seen.
const lives_s = 0.8 * 3600 * hours;
while (elapsed_s() < lives_s) {
  const for_s = between(life_s / 3, (5 / 3) * life_s);
  await oneLife(Math.min(for_s, lives_s - elapsed_s() + 1), random() < 0.8);
}
weights.length = 0;
await oneLife(Math.max(20, 0.2 * 3600 * hours), false);
await atLength();
const last = await startBench(data);
await checkAll(last);
disk.remove();
await powerCuts();
stand.end().catch(() => undefined);
report();

/** A bench from its start to its end, by a kill or as it should be, with work and mischief between. */
async function oneLife(for_s: number, killed: boolean): Promise<void> {
  const bench = await startBench(data);
  running.bench = bench;
  starts_ms.push(bench.start_ms);
  const client = await bench.client();
  await verify(client, ledger, false);
  const gauges = await plugIn(client, stand.links);
  const fuzz = values.fuzz ? await startFuzz(bench, random, await knownTo(random, client, gauges)) : undefined;
  let working = true;
  const work = keepWorking(client, gauges, () => working);
  await makeTrouble(bench, client, for_s);
  if (killed) bench.process.kill('SIGKILL');
  working = false;
  await work;
  await settleFuzz(fuzz);
  if (!killed) bench.process.kill('SIGTERM');
  const end = await bench.ended;
  count(killed ? 'killed' : 'ended');
  if (!killed && end !== 0) faults.push(`ended with ${end}: ${bench.said().slice(-300)}`);
  if (/^\s+at .+:\d+:\d+\)?$/mu.test(bench.said()))
    faults.push(`a stack at the terminal: ${bench.said().slice(0, 400)}`);
  lookThroughLog();
  const how = killed ? 'killed' : 'ended';
  say(`  ${elapsed_s().toFixed(0)} s: ${how} after ${for_s.toFixed(0)} s, ${faults.length} faults`);
  tellFaults();
}

/** Noise and messages in great number, in a life of their own without mischief. */
async function atLength(): Promise<void> {
  if (noise_MB === 0 && messages === 0) return;
  const bench = await startBench(data);
  running.bench = bench;
  const client = await bench.client();
  const gauges = await plugIn(client, stand.links);
  faults.push(...(await makeNoise(noise_MB, stand, client, random)));
  say(`  ${elapsed_s().toFixed(0)} s: ${noise_MB} MB of noise, ${faults.length} faults`);
  const sent = await sendMessages(messages, bench, random, await knownTo(random, client, gauges));
  faults.push(...sent.faults);
  addUp(sent.count);
  say(`  ${elapsed_s().toFixed(0)} s: ${sent.count.messages} messages, ${faults.length} faults`);
  tellFaults();
  bench.process.kill('SIGTERM');
  const end = await bench.ended;
  if (end !== 0) faults.push(`ended with ${end}: ${bench.said().slice(-300)}`);
  lookThroughLog();
}

function tellFaults(): void {
  for (const fault of faults.slice(told, told + 10)) say(`FAULT ${fault}`);
  told = faults.length;
}

async function makeTrouble(bench: BenchUnderTest, client: BenchClient, for_s: number): Promise<void> {
  const until = elapsed_s() + for_s;
  const names = Object.keys(mischiefs);
  while (elapsed_s() < until) {
    const name = names[Math.floor(random() * names.length)] ?? '';
    const scene = { bench, client, stand, folder: disk.folder, ownDisk: disk.own, random, faults, noticed_ms };
    const late = pause(mostMischief_ms).then(() => 'it did not come to its end');
    const wrong = await Promise.race([late, mischiefs[name]?.(scene).catch((error: unknown) => String(error))]);
    if (typeof wrong === 'string') faults.push(`${name}: ${wrong}`);
    count(name);
    if (bench.process.exitCode !== null || bench.process.signalCode !== null) {
      faults.push(`the bench ended at ${name}: ${bench.said().slice(-300)}`);
      return;
    }
    const weight = bench.weight();
    if (weight !== undefined) weights.push({ ...weight, at_s: elapsed_s() });
  }
}

async function keepWorking(client: BenchClient, gauges: readonly string[], goesOn: () => boolean): Promise<void> {
  while (goesOn()) {
    turn += 1;
    await workOnce(client, ledger, turn, gauges);
    await pause(60);
  }
}

async function settleFuzz(fuzz: Fuzzing | undefined): Promise<void> {
  if (fuzz === undefined) return;
  await fuzz.stop();
  faults.push(...fuzz.faults.slice(0, 5));
  addUp(fuzz.count);
}

function addUp(count: FuzzCount): void {
  for (const name of ['messages', 'taken', 'refused', 'unanswered'] as const) totals[name] += count[name];
}

/** Whatever the bench noted as a fault of its own is one of ours. */
function lookThroughLog(): void {
  const text = readFileSync(join(data, 'log', 'bench.jsonl'), 'utf8');
  for (const line of text.split('\n').filter((one) => one.includes('"kind":"defect"')))
    if (!seenDefects.has(line)) {
      seenDefects.add(line);
      faults.push(`noted: ${line.slice(0, 500)}`);
    }
}

async function checkAll(bench: BenchUnderTest): Promise<void> {
  const client = await bench.client();
  await verify(client, ledger, true);
  bench.process.kill('SIGTERM');
  if ((await bench.ended) !== 0) faults.push(`the last bench ended with ${await bench.ended}`);
}

/** So many of the journal alone, at its fastest, and of the whole bench at its ordinary work. */
async function powerCuts(): Promise<void> {
  if (cuts === 0) return;
  const why = whyNoCuts();
  tellCuts('the journal', why ?? (await cutJournal(cuts, say)));
  tellCuts('the whole bench', why ?? (await cutBench({ cuts, stand, random, say })));
}

function tellCuts(what: string, cut: Cuts | string): void {
  if (typeof cut === 'string') return say(`power cuts of ${what}: skipped, ${cut}`);
  faults.push(...cut.faults);
  const lost = cut.faults.length;
  say(`power cuts of ${what}: ${cut.cuts}; ${cut.safe} rows and entries called safe before them; lost: ${lost}`);
}

function report(): void {
  const { entries, rows } = ledger.count();
  const sorted = starts_ms.toSorted((a, b) => a - b);
  say(`acknowledged: ${entries} entries, ${rows} rows of ${Math.round(stand.sent_bytes() / 1e6)} MB sent`);
  say(
    `done: ${Object.entries(done)
      .map(([name, times]) => `${name} ${times}`)
      .join(', ')}`,
  );
  say(
    `messages: ${totals.messages}, taken ${totals.taken}, refused ${totals.refused}, never answered ${totals.unanswered}`,
  );
  say(
    `from start to link: median ${Math.round(sorted[Math.floor(sorted.length / 2)] ?? 0)} ms, longest ${Math.round(sorted.at(-1) ?? 0)} ms`,
  );
  say(`a data folder that went away: said after at most ${Math.round(Math.max(0, ...noticed_ms))} ms`);
  say(`memory in use ${weightWords(weights, 'live_MB')} MB, held ${weightWords(weights, 'rss_MB')} MB`);
  say(`descriptors ${weightWords(weights, 'descriptors')}`);
  tellFaults();
  say(`${faults.length} faults in ${(elapsed_s() / 3600).toFixed(2)} h`);
  process.exit(faults.length === 0 ? 0 : 1);
}
