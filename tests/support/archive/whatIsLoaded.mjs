// Run by itself: opens a bench, and says which modules its thread has loaded and which threads it has begun.
import { registerHooks, syncBuiltinESMExports } from 'node:module';
import threads from 'node:worker_threads';

const [folder, address] = process.argv.slice(2);
const [loaded, begun] = [[], []];
registerHooks({
  load(url, context, next) {
    loaded.push(url);
    return next(url, context);
  },
});
threads.Worker = class extends threads.Worker {
  constructor(program, options) {
    begun.push(String(program));
    super(program, options);
  }
};
syncBuiltinESMExports();

const source = '../../../src/main';
const { openBench } = await import(`${source}/bench/bench.ts`);
const { openDatabase } = await import(`${source}/store/database.ts`);
const { writeChoice } = await import(`${source}/archive/choice.ts`);
const { systemClock } = await import(`${source}/clock.ts`);
if (address !== undefined) {
  const { value } = openDatabase(folder, systemClock);
  writeChoice(value, { address });
  value.close();
}
const { value: bench } = openBench({ folder, clock: systemClock, version: 'test' });
await bench.answers['builds.start']({ title: 'Rear axle', technician: 'A. Tester' });
await bench.answers['archive.find']({ words: 'axle' });
await bench.close();
process.stdout.write(JSON.stringify({ loaded, begun }));
