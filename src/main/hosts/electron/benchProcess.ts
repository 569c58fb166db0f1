// The bench as Electron's utility process: texts in and out through the parent port.
import { parseArgs } from 'node:util';
import { attend } from '../../../shared/contract/server.ts';
import { openBenchHere } from '../openBenchHere.ts';

const { values } = parseArgs({ options: { data: { type: 'string' }, simulate: { type: 'boolean', default: false } } });
const bench = await openBenchHere({ folder: values.data ?? 'axlewright-data', simulate: values.simulate });
if (!bench.ok) {
  process.stderr.write(`${bench.problem.sentence} ${bench.problem.remedy}\n`);
  process.exit(1);
}
const attendant = attend(bench.value, (text) => process.parentPort.postMessage(text));
process.parentPort.on('message', ({ data }: { data: unknown }) => {
  if (typeof data === 'string') void attendant.receive(data);
});
