// `npm run bench`: every figure the project promises, measured, each beside its baseline. More words choose files by name;
// where the first word is a bench that has rows to choose from (`npm run bench worlds runout`), the rest are for it. With `--keep`
// what is printed is kept in figures/, where the tables of the documents are held against it.
import { readdirSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg, totalmem } from 'node:os';
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
const keep = process.argv.includes('--keep');
const words = process.argv.slice(2).filter((word) => word !== '--keep');
const named = all.find((file) => file === `${words[0] ?? ''}.bench.ts`);
const alone = named !== undefined && (await load(named)).takesWords === true ? named : undefined;
const files = alone === undefined ? all.filter(isWanted) : [alone];
const print = (line: string): void => void process.stdout.write(`${line}\n`);

function isWanted(file: string): boolean {
  return words.length === 0 || words.some((word) => file.includes(word));
}

const machine = `${availableParallelism()} × ${cpus()[0]?.model ?? 'unknown'}, ${Math.round(totalmem() / 2 ** 30)} GiB, Node ${process.versions.node}, ${process.platform}`;
print(`machine: ${machine}`);
for (const file of files) {
  print(`\n── ${file.replace('.bench.ts', '')}`);
  const { default: bench } = await load(file);
  const lines: string[] = [];
  const begun = { at: new Date().toISOString(), machine, load: Number(loadavg()[0]?.toFixed(1)) };
  const tell = (line: string): void => {
    lines.push(line);
    print(line);
  };
  await bench(tell, alone === undefined ? [] : words.slice(1));
  if (keep) keepFigures(file.replace('.bench.ts', ''), { ...begun, words, lines });
}
if (files.length === 0) {
  print(`no bench is called ${words.join(' or ')}`);
  process.exitCode = 2;
}

/** One file for each bench, written over; a figure in a document is one of the latest that somebody meant to keep. */
function keepFigures(name: string, figures: object): void {
  const file = join(import.meta.dirname, 'figures', `${name}.json`);
  writeFileSync(file, `${JSON.stringify({ bench: name, ...figures }, undefined, 2)}\n`);
  print(`kept in tests/performance/figures/${name}.json`);
}
