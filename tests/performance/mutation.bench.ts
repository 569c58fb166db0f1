import { join } from 'node:path';
import { readHouse } from './house/sources.ts';
import { type Change, changesOf, draw, prepared } from './mutation/draw.ts';
import { codeOf, mutatedRooms, testsFor } from './mutation/rooms.ts';
import { type Tried, tried } from './mutation/run.ts';

export const takesWords = true;

const root = join(import.meta.dirname, '..', '..');

/** Changes drawn in each room when nothing else is said. */
const usualCount = 40;
const usualSeed = 20_261_130;

/**
 * How many changes made on purpose the tests notice. `npm run bench mutation measuring 80 7` draws 80 of all changes that can
 * be made in one room, with seed 7; a folder or a file instead of a room draws from that. Not part of CI: a change costs
 * a few seconds.
 */
export default async function bench(print: (line: string) => void, words: readonly string[] = []): Promise<void> {
  if (words.length === 0) {
    print(
      `not run by itself: npm run bench mutation ROOM [CHANGES] [SEED], all, or a folder or file; rooms: ${Object.keys(mutatedRooms).join(', ')}`,
    );
    return;
  }
  const [what = '', count = String(usualCount), seed = String(usualSeed)] = words;
  const rooms = Object.keys(mutatedRooms).filter((room) => what === 'all' || room === what || codeOf(room, what));
  if (rooms.length === 0) throw new Error(`${what} is no room; rooms: ${Object.keys(mutatedRooms).join(', ')}`);
  const rows: string[] = [];
  for (const room of rooms) {
    const within = what.includes('/') ? what : '';
    const { all, found } = await roomTried(print, { room, within, count: Number(count), seed: Number(seed) });
    rows.push(row(within || room, found, all));
  }
  print(
    `\nnoticed of those drawn (seed ${seed}), 95 % interval (Wilson 1927), of all changes that can be made; wanted: 85 %`,
  );
  rows.forEach(print);
}

interface Wanted {
  readonly room: string;
  /** Only paths that begin so. */
  readonly within: string;
  readonly count: number;
  readonly seed: number;
}

async function roomTried(print: (line: string) => void, { room, within, count, seed }: Wanted) {
  const { code } = readHouse(root);
  const paths = code.map(({ path }) => path).filter((path) => codeOf(room, path) && path.startsWith(within));
  const all: Change[] = [];
  for (const path of paths) all.push(...(await changesOf(root, path)));
  const drawn = draw(all, count, seed);
  const changed = [...new Set(drawn.map(({ path }) => path))];
  const files = await Promise.all(
    changed.map((path) =>
      prepared(
        root,
        path,
        drawn.filter((one) => one.path === path),
      ),
    ),
  );
  const tests = testsFor(code, changed, mutatedRooms[room]?.tests ?? []);
  const found = tried(root, files, tests, (one) => {
    if (one.fate !== 'noticed') print(told(one));
  });
  return { all: all.length, found };
}

const told = ({ change, fate }: Tried): string =>
  `  ${fate}: ${change.path}:${change.line} became ${change.replacement.replaceAll(/\s+/gu, ' ').slice(0, 100)}`;

function row(name: string, found: readonly Tried[], all: number): string {
  const noticed = found.filter(({ fate }) => fate === 'noticed').length;
  const [low, high] = wilson(noticed, found.length);
  const percent = (share: number) => (100 * share).toFixed(0);
  return `${name.padEnd(14)} ${noticed}/${found.length}  ${percent(noticed / found.length)} % (${percent(low)} to ${percent(high)})  of ${all}`;
}

/** Interval of a share at 95 % (Wilson 1927, from memory). */
function wilson(part: number, whole: number): readonly [number, number] {
  const z = 1.96;
  const share = part / whole;
  const middle = (share + z ** 2 / (2 * whole)) / (1 + z ** 2 / whole);
  const half = (z / (1 + z ** 2 / whole)) * Math.sqrt((share * (1 - share)) / whole + z ** 2 / (4 * whole ** 2));
  return [middle - half, middle + half];
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`), process.argv.slice(2));
