import { join } from 'node:path';
import { readHouse } from './house/sources.ts';
import { drawLines } from './mutation/draw.ts';
import { codeOf, mutatedRooms, testsFor } from './mutation/rooms.ts';
import { type Mutant, mutants } from './mutation/run.ts';

export const takesWords = true;

const root = join(import.meta.dirname, '..', '..');

/** Lines drawn in each room when nothing else is said; a line holds one to four changes. */
const usualLines = 40;
const usualSeed = 20261130;

/**
 * How many changes made on purpose the tests notice. `npm run bench mutation measuring 80 7` draws 80 lines of one room
 * with seed 7; a path instead of a room takes that whole file. Not part of CI: it takes from minutes to an hour.
 */
export default async function bench(print: (line: string) => void, words: readonly string[] = []): Promise<void> {
  if (words.length === 0) {
    print(
      `not run by itself: npm run bench mutation ROOM [LINES] [SEED], all, or a file; rooms: ${Object.keys(mutatedRooms).join(', ')}`,
    );
    return;
  }
  const [what = '', lines = String(usualLines), seed = String(usualSeed)] = words;
  if (what.endsWith('.ts')) {
    const room = Object.keys(mutatedRooms).find((each) => codeOf(each, what)) ?? '';
    tell(what, changed(print, room, [what], [what]), print);
    return;
  }
  const rooms = Object.keys(mutatedRooms).filter((room) => what === 'all' || room === what);
  const all = rooms.flatMap((room) => {
    const files = readHouse(root).code.filter(({ path }) => codeOf(room, path));
    const drawn = drawLines(files, Number(lines), Number(seed));
    // File by file, so that each change meets only the tests that can notice it.
    const found = [...new Set(drawn.map(({ path }) => path))].flatMap((path) => {
      const lines = drawn.filter((each) => each.path === path).map(({ line }) => `${path}:${line}-${line}`);
      return changed(print, room, lines, [path]);
    });
    tell(`${room}, ${drawn.length} of the lines of ${files.length} files, seed ${seed}`, found, print);
    return found;
  });
  if (rooms.length > 1) tell('all rooms', all, print);
}

function changed(
  print: (line: string) => void,
  room: string,
  mutate: readonly string[],
  paths: readonly string[],
): readonly Mutant[] {
  const tests = testsFor(readHouse(root).code, paths, mutatedRooms[room]?.tests ?? ['tests/unit/']);
  if (tests.length === 0) print(`  no test reaches ${paths.join(', ')}`);
  return tests.length === 0 ? [] : mutants(root, mutate, tests);
}

function tell(title: string, found: readonly Mutant[], print: (line: string) => void): void {
  const decided = found.filter(({ became }) => ['Killed', 'Timeout', 'Survived', 'NoCoverage'].includes(became));
  const noticed = decided.filter(({ became }) => became === 'Killed' || became === 'Timeout').length;
  const share = ((100 * noticed) / Math.max(1, decided.length)).toFixed(0);
  print(`${title}: ${noticed} of ${decided.length} changes noticed, ${share} % (wanted: 85 %)`);
  for (const { path, line, became, replacement } of decided) {
    if (became === 'Survived' || became === 'NoCoverage')
      print(
        `  ${became === 'Survived' ? 'not noticed' : 'no test there'}: ${path}:${line} became ${replacement.replaceAll(/\s+/gu, ' ').slice(0, 100)}`,
      );
  }
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`), process.argv.slice(2));
