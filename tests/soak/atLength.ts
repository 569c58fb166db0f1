import type { BenchClient } from '../../src/shared/contract/contract.ts';
import type { MessageOptions } from '../support/messages.ts';
import type { BenchUnderTest } from './benchUnderTest.ts';
import { type FuzzCount, startFuzz } from './fuzz.ts';
import type { StandGauges } from './standGauges.ts';
import { valueOf } from './worker.ts';

const pause = (ms: number): Promise<void> => new Promise((resolve) => void setTimeout(resolve, ms));

/** Bytes that look like a gauge's now and then: digits, signs, units and ends of lines among anything else. */
export function hostileBytes(length: number, random: () => number): Buffer {
  const like = Buffer.from('0123456789+-.,eE mm in\r\n\u0002\u0003');
  return Buffer.from(
    Array.from({ length }, () =>
      random() < 0.5 ? Math.floor(256 * random()) : (like[Math.floor(like.length * random())] ?? 0),
    ),
  );
}

const piece_bytes = 32 * 1024;

/**
 * Sends so many MB of noise through the lines of the stand (pseudo-terminals, on Linux) between their numbers. The bench must
 * answer meanwhile, and hear numbers of every gauge again afterwards.
 * @returns what went wrong.
 */
export async function makeNoise(
  size_MB: number,
  stand: StandGauges,
  client: BenchClient,
  random: () => number,
): Promise<readonly string[]> {
  const wanted = stand.sent_bytes() + size_MB * 1e6;
  for (let turn = 0; stand.sent_bytes() < wanted; turn += 1) {
    await stand.babble(turn % stand.links.length, hostileBytes(piece_bytes, random));
    if (turn % 50 === 0) valueOf(await client.ask('gauges.states', {}));
  }
  const before = valueOf(await client.ask('gauges.states', {}));
  await pause(5000);
  const after = valueOf(await client.ask('gauges.states', {}));
  return after.flatMap(({ gauge, readings, state }) => {
    const heard = readings - (before.find((one) => one.gauge === gauge)?.readings ?? 0);
    return heard > 0 ? [] : [`after ${size_MB} MB of noise gauge ${gauge} is ${state} and heard no more`];
  });
}

/** Sends so many messages made of the contract's schemas, and waits for the answers. */
export async function sendMessages(
  wanted: number,
  bench: BenchUnderTest,
  random: () => number,
  known: MessageOptions['known'],
): Promise<{ readonly count: FuzzCount; readonly faults: readonly string[] }> {
  const fuzz = await startFuzz(bench, random, known);
  while (fuzz.count.messages < wanted && bench.process.exitCode === null && bench.process.signalCode === null)
    await pause(50);
  await fuzz.stop();
  const short = fuzz.count.messages < wanted ? [`only ${fuzz.count.messages} messages were sent`] : [];
  return { count: fuzz.count, faults: [...fuzz.faults.slice(0, 20), ...short] };
}
