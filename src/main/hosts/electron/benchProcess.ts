// The bench as Electron's utility process: texts in and out through the parent port, and objects about the process itself.
import { parseArgs } from 'node:util';
import { attend } from '../../../shared/contract/server.ts';
import type { Problem } from '../../../shared/basics/result.ts';
import { openBenchHere } from '../openBenchHere.ts';
import { surviveDefects } from '../outermost.ts';
import { keychainBefore } from './keychain.ts';
import { type WordFromBench, type WordToBench, wordToBenchSchema } from './hostWords.ts';

/** A message needs a moment to leave before its process is gone. */
const leave_ms = 300;

const { values } = parseArgs({ options: { data: { type: 'string' }, simulate: { type: 'boolean', default: false } } });

function endWith(problem: Problem): void {
  const word: WordFromBench = { problem };
  process.parentPort.postMessage(word);
  process.stderr.write(`${problem.sentence} ${problem.remedy}\n`);
  setTimeout(() => process.exit(1), leave_ms);
}

async function begin(): Promise<void> {
  const { keychain, answer } = keychainBefore((word) => process.parentPort.postMessage(word));
  const folder = values.data ?? 'axlewright-data';
  const bench = await openBenchHere({ folder, simulate: values.simulate, keychain });
  if (!bench.ok) return endWith(bench.problem);
  const service = bench.value;
  surviveDefects(service.defect);
  const attendant = attend(service, (text) => process.parentPort.postMessage(text));
  const end = async (): Promise<void> => {
    const written = await service.close();
    if (written.ok) process.exit(0);
    else endWith(written.problem);
  };
  const take = (word: WordToBench | undefined): void => {
    if (word === undefined) return;
    if ('end' in word) void end();
    else if ('keychain' in word) answer(word);
    else service.defect(word.fault, new Error('told by the window'));
  };
  process.parentPort.on('message', ({ data }: { data: unknown }) => {
    if (typeof data === 'string') void attendant.receive(data);
    else take(wordToBenchSchema.safeParse(data).data);
  });
  process.once('SIGTERM', () => void end());
}

await begin();
