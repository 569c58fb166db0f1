// `npm run bench`: every figure the project promises, measured, each beside its baseline. More words choose files by name;
// where the first word is a bench that has rows to choose from (`npm run bench worlds runout`), the rest are for it.
import { readdirSync } from 'node:fs';
import { availableParallelism, cpus, totalmem } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

interface BenchFile {
  readonly default: (print: (line: string) => void, words: readonly string[]) => Promise<void>;
  readonly takesWords?: boolean;
}

const load = async (file: string): Promise<BenchFile> =>
  (await import(pathToFileURL(join(import.meta.dirname, file)).href)) as BenchFile;

const all = readdirSync(import.meta.dirname)
  .filter((file) => file.endsWith('.bench.ts'))
  .toSorted();
const words = process.argv.slice(2);
const named = all.find((file) => file === `${words[0] ?? ''}.bench.ts`);
const alone = named !== undefined && (await load(named)).takesWords === true ? named : undefined;
const files = alone === undefined ? all.filter(isWanted) : [alone];
const print = (line: string): void => void process.stdout.write(`${line}\n`);

function isWanted(file: string): boolean {
  return words.length === 0 || words.some((word) => file.includes(word));
}

print(
  `machine: ${availableParallelism()} × ${cpus()[0]?.model ?? 'unknown'}, ${Math.round(totalmem() / 2 ** 30)} GiB, Node ${process.versions.node}, ${process.platform}`,
);
for (const file of files) {
  print(`\n── ${file.replace('.bench.ts', '')}`);
  const { default: bench } = await load(file);
  await bench(print, alone === undefined ? [] : words.slice(1));
}
if (files.length === 0) {
  print(`no bench is called ${words.join(' or ')}`);
  process.exitCode = 2;
}
