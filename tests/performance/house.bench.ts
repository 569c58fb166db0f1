import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bareLengths, homonyms, repeatedRuns, silentZeros, unusedExports, unusedProperties } from './house/counts.ts';
import { functionsOf, type FunctionSeen } from './house/functions.ts';
import { picture } from './house/picture.ts';
import { circlesOf, roomsOf } from './house/rooms.ts';
import { type House, readHouse, type SourceFile } from './house/sources.ts';

const root = join(import.meta.dirname, '..', '..');

/** The structure of the code in numbers. More words are revisions to set beside it: `npm run bench house 379badc`. With `list` each
 * thing that counts is named; with `picture` the house is drawn anew for the documents. */
export default async function bench(print: (line: string) => void, words: readonly string[] = []): Promise<void> {
  const list = words.includes('list');
  if (words.includes('picture')) {
    const file = join(root, 'docs', 'pictures', 'house.svg');
    writeFileSync(file, picture(readHouse(root).code, 'src/shared'));
    print(`the rooms of src/shared as they stand, drawn into docs/pictures/house.svg`);
  }
  for (const revision of [...words.filter((word) => word !== 'list' && word !== 'picture'), undefined]) {
    print(`at ${revision ?? 'this checkout'}`);
    tell(readHouse(root, revision), print, list && revision === undefined);
  }
}

export const takesWords = true;

function tell(house: House, print: (line: string) => void, list: boolean): void {
  const inFolder = (folder: string) => house.code.filter(({ path }) => path.startsWith(`${folder}/`));
  const src = inFolder('src');
  const shared = inFolder('src/shared');
  const { floors, arrows, backUp } = roomsOf(shared, 'src/shared');
  print(
    `  src/shared: ${floors.flat().length} rooms on ${floors.length} floors, ${arrows.size} arrows, ${backUp.length} back up`,
  );
  for (const floor of floors) print(`    ${floor.join('  ')}`);
  for (const arrow of backUp) print(`    back up: ${arrow}`);
  const circles = circlesOf([...src, ...inFolder('hardware-sim')]);
  print(`  circles of files, types included: ${circles.length} (${circles.map((circle) => circle.length).join(', ')})`);
  for (const folder of ['src', 'src/shared', 'src/main', 'src/renderer'])
    tellFunctions(folder, inFolder(folder), print, list);
  const unused = unusedExports(house);
  print(
    `  exports that only their own file uses ${unused.onlyOwnFile.length}, that only tests use ${unused.onlyTests.length}`,
  );
  if (list)
    for (const name of [...unused.onlyOwnFile, ...unused.onlyTests.map((n) => `(tests) ${n}`)]) print(`    ${name}`);
  const doubled = homonyms(src);
  print(`  type names with several meanings in src: ${doubled.length}`);
  if (list) print(`    ${doubled.join(', ')}`);
  print(
    `  bare px in style sheets ${bareLengths(house)}, custom properties used nowhere ${unusedProperties(house).length}`,
  );
  print(`  "] ?? 0" in src ${silentZeros(src)}; runs of six lines that stand twice in src ${repeatedRuns(src)}`);
  print(
    `  lines: src ${linesOf(src)}, tests ${linesOf(inFolder('tests'))} (${(linesOf(inFolder('tests')) / linesOf(src)).toFixed(2)} of src), hardware-sim ${linesOf(inFolder('hardware-sim'))}`,
  );
}

function tellFunctions(
  folder: string,
  files: readonly SourceFile[],
  print: (line: string) => void,
  list: boolean,
): void {
  const functions = files.flatMap(functionsOf).toSorted((a, b) => a.lines - b.lines);
  const at = (share: number): number => functions[Math.floor(share * (functions.length - 1))]?.lines ?? 0;
  const longest = functions.at(-1);
  const long = functions.filter(({ lines }) => lines > 60);
  const wide = functions.filter(({ parameters }) => parameters > 4);
  print(
    `  ${folder}: ${functions.length} functions, lines median ${at(0.5)}, p90 ${at(0.9)}, longest ${longest?.lines} (${longest?.name}); over 60 lines ${long.length}; more than four parameters ${wide.length}`,
  );
  if (list && folder === 'src') for (const each of [...long, ...wide]) print(`    ${described(each)}`);
}

const described = ({ name, path, lines, parameters }: FunctionSeen): string =>
  `${path} ${name}: ${lines} lines, ${parameters} parameters`;

const linesOf = (files: readonly SourceFile[]): number =>
  files.reduce((sum, { text }) => sum + text.split('\n').length - 1, 0);

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`), process.argv.slice(2));
