import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { BenchClient } from '../../src/shared/contract/contract.ts';
import { startBench } from './benchUnderTest.ts';
import { type FileDisk, fileDisk } from './fileDisk.ts';
import type { Cuts } from './powerCut.ts';
import type { StandGauges } from './standGauges.ts';
import { type Ledger, openLedger, plugIn, valueOf, verify, workOnce } from './worker.ts';

const pause = (ms: number): Promise<void> => new Promise((resolve) => void setTimeout(resolve, ms));

interface CutsOfTheBench {
  readonly cuts: number;
  readonly stand: StandGauges;
  readonly random: () => number;
  readonly say: (line: string) => void;
}

/** Power cuts of the whole bench while four gauges stream and a build is written in, on one disk that grows old with them. */
export async function cutBench({ cuts, stand, random, say }: CutsOfTheBench): Promise<Cuts | string> {
  const disk = fileDisk();
  if (disk === undefined) return 'no disk in a file can be mounted';
  const scene = { disk, data: join(disk.place, 'data'), stand, random };
  mkdirSync(scene.data);
  let ledger = openLedger();
  try {
    for (let cut = 1; cut <= cuts; cut += 1) {
      ledger = await workUntilCut(scene, ledger, cut * 10_000);
      if (!disk.again()) return 'the disk could not be mounted again';
      if (cut % 20 === 0) say(`  ${cut} cuts of the bench, ${ledger.faults.length} faults`);
    }
    await lookThroughAll(scene.data, ledger);
    const { entries, rows } = ledger.count();
    return { cuts, safe: entries + rows, faults: ledger.faults };
  } finally {
    disk.remove();
  }
}

interface Scene {
  readonly disk: FileDisk;
  readonly data: string;
  readonly stand: StandGauges;
  readonly random: () => number;
}

/** @returns what was called safe before the cut began: what was said in that very moment is not asked for. */
async function workUntilCut({ disk, data, stand, random }: Scene, ledger: Ledger, from: number): Promise<Ledger> {
  const bench = await startBench(data);
  const client = await bench.client();
  await verify(client, ledger, false);
  ledger.faults.push(...(await saidLost(client)));
  const gauges = await plugIn(client, stand.links);
  let turn = from;
  const work = (async () => {
    for (; bench.process.exitCode === null && bench.process.signalCode === null; turn += 1) {
      await workOnce(client, ledger, turn, gauges);
      await pause(20);
    }
  })();
  await pause(400 + 2000 * random());
  const before = copyOf(ledger);
  disk.cut();
  bench.process.kill('SIGKILL');
  await bench.ended;
  await work;
  return before;
}

const copyOf = (ledger: Ledger): Ledger => {
  const copy = openLedger();
  for (const [build, ids] of ledger.entries) copy.entries.set(build, ids);
  copy.rows.push(...ledger.rows);
  copy.faults.push(...ledger.faults);
  return copy;
};

/** After a cut nothing is missing, so that a bench which says so is wrong. */
async function saidLost(client: BenchClient): Promise<readonly string[]> {
  const { warnings } = valueOf(await client.ask('bench.about', {}));
  return warnings.filter(({ kind }) => kind.startsWith('records-')).map(({ sentence }) => `after a cut: ${sentence}`);
}

async function lookThroughAll(data: string, ledger: Ledger): Promise<void> {
  const bench = await startBench(data);
  await verify(await bench.client(), ledger, true);
  bench.process.kill('SIGTERM');
  const end = await bench.ended;
  if (end !== 0) ledger.faults.push(`the bench ended with ${end} after the cuts: ${bench.said().slice(-300)}`);
}
