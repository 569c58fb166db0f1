// `npm run bench`: every figure the project promises, measured, each beside its baseline. More words choose files by name.
import { readdirSync } from 'node:fs';
import { availableParallelism, cpus, totalmem } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

type Bench = (print: (line: string) => void) => Promise<void>;

const wanted = process.argv.slice(2);
const files = readdirSync(import.meta.dirname)
  .filter((file) => file.endsWith('.bench.ts') && (wanted.length === 0 || wanted.some((word) => file.includes(word))))
  .toSorted();
const print = (line: string): void => void process.stdout.write(`${line}\n`);

print(
  `machine: ${availableParallelism()} × ${cpus()[0]?.model ?? 'unknown'}, ${Math.round(totalmem() / 2 ** 30)} GiB, Node ${process.versions.node}, ${process.platform}`,
);
for (const file of files) {
  print(`\n── ${file.replace('.bench.ts', '')}`);
  const { default: bench } = (await import(pathToFileURL(join(import.meta.dirname, file)).href)) as {
    readonly default: Bench;
  };
  await bench(print);
}
if (files.length === 0) {
  print(`no bench is called ${wanted.join(' or ')}`);
  process.exitCode = 2;
}
