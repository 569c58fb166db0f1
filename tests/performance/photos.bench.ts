import { type EdgeName, edgeNames } from '../../hardware-sim/worlds/photos/contact.ts';
import { heldOut, looked, type Manner, shopFloor, unreadables } from '../../hardware-sim/worlds/photos/manners.ts';
import { type CompoundName, compounds, type MetalName, metals } from '../../hardware-sim/worlds/photos/paint.ts';
import { type Shot, shoot } from '../../hardware-sim/worlds/photos/shot.ts';
import { seeded } from '../../hardware-sim/seeded.ts';
import type { Mark } from '../../src/shared/axle/mark/mark.ts';
import { readPattern } from '../../src/shared/axle/mark/readPattern.ts';

/**
 * Marks read off photographs of a world of other beliefs (hardware-sim/worlds/photos). `npm run bench photos` takes one
 * photo of every colour on every metal in every manner; a number takes so many, further words only those manners that
 * have one of them in their names or their kind: looked, held, floor, unreadable.
 */
export const takesWords = true;

interface Trial {
  readonly compound: CompoundName;
  readonly metal: MetalName;
  readonly manner: string;
  readonly shot: Pick<Shot, 'mark' | 'eyesight'>;
  readonly mark: Mark | undefined;
  readonly why: string | undefined;
  readonly processor_ms: number;
}

interface Setting {
  readonly compound: CompoundName;
  readonly metal: MetalName;
  readonly name: string;
  readonly manner: Manner;
}

function trial({ compound, metal, name, manner }: Setting, seed: number): Trial {
  const { photo, tapped, mark, eyesight } = shoot({ compound, metal, manner }, seeded(seed));
  const began = process.cpuUsage();
  const result = readPattern(photo, tapped);
  const used = process.cpuUsage(began);
  return {
    compound,
    metal,
    manner: name,
    shot: { mark, eyesight },
    mark: result.ok ? result.value.mark : undefined,
    why: result.ok ? undefined : result.problem.kind,
    processor_ms: (used.user + used.system) / 1000,
  };
}

const kinds = { looked, held: heldOut, floor: shopFloor, unreadable: unreadables } as const;
const seedsFrom = { looked: 500_000, held: 600_000, floor: 650_000, unreadable: 700_000 } as const;

export default async function bench(print: (line: string) => void, words: readonly string[] = []): Promise<void> {
  const count = Number(words.find((word) => /^\d+$/u.test(word)) ?? 1);
  const wanted = words.filter((word) => !/^\d+$/u.test(word));
  print(
    'answered / what a person reads · U95 covers heel, crown of all answered · beyond 3 U95 · touched edges wrong of all that are plain',
  );
  for (const kind of ['looked', 'held', 'floor', 'unreadable'] as const) {
    const names = Object.entries(kinds[kind]).filter(([name]) => isWanted(wanted, kind, name));
    if (names.length === 0) continue;
    let seed = seedsFrom[kind];
    const trials = names.flatMap(([name, manner]) =>
      settings(name, manner).flatMap((setting) => Array.from({ length: count }, () => trial(setting, (seed += 1)))),
    );
    print(`\n${headings[kind]} (seeds from ${seedsFrom[kind]})`);
    if (kind === 'unreadable') printUnreadable(print, trials);
    else printRead(print, trials);
  }
}

const headings = {
  looked: 'manners looked at while the reading was worked on',
  held: 'manners held out',
  floor: 'dirt, hurry and bad light, held out',
  unreadable: 'what nobody can read',
} as const;

const isWanted = (words: readonly string[], kind: string, name: string): boolean =>
  words.length === 0 || words.some((word) => word === kind || name.includes(word));

const settings = (name: string, manner: Manner): readonly Setting[] =>
  namesOf(compounds).flatMap((compound) => namesOf(metals).map((metal) => ({ compound, metal, name, manner })));

const namesOf = <Name extends string>(of: Readonly<Record<Name, unknown>>): readonly Name[] =>
  Object.keys(of).filter((name): name is Name => name in of);

function printRead(print: (line: string) => void, trials: readonly Trial[]): void {
  const manners = [...new Set(trials.map(({ manner }) => manner))];
  const columns = namesOf(compounds).flatMap((compound) => namesOf(metals).map((metal) => [compound, metal] as const));
  print(
    `\nanswered of what a person reads\n${''.padEnd(22)}${columns.map(([compound, metal]) => `${compound.slice(0, 6)}/${metal.slice(0, 1)}`.padEnd(9)).join('')}`,
  );
  for (const manner of manners) {
    const cells = columns.map(([compound, metal]) =>
      answered(trials.filter((one) => one.manner === manner && one.compound === compound && one.metal === metal)),
    );
    print(`${manner.padEnd(22)}${cells.map((cell) => cell.padEnd(9)).join('')}`);
  }
  print('');
  for (const [compound, metal] of columns) {
    print(
      row(
        `${compound} on ${metal}`,
        trials.filter((one) => one.compound === compound && one.metal === metal),
      ),
    );
  }
  print('');
  for (const manner of manners)
    print(
      row(
        manner,
        trials.filter((one) => one.manner === manner),
      ),
    );
  print(row('\nall', trials));
  const times = trials.map((one) => one.processor_ms).toSorted((a, b) => a - b);
  print(`processor time of a reading: median ${(times[Math.floor(times.length / 2)] ?? Number.NaN).toFixed(0)} ms`);
}

const answered = (trials: readonly Trial[]): string => {
  const reads = trials.filter(({ shot }) => shot.eyesight.reads);
  return reads.length === 0 ? '–' : `${reads.filter(({ mark }) => mark !== undefined).length}/${reads.length}`;
};

function row(name: string, trials: readonly Trial[]): string {
  const given = trials.flatMap(({ mark, shot }) =>
    mark === undefined || shot.mark === undefined ? [] : [{ mark, truth: shot.mark }],
  );
  const within = (along: 'heel' | 'crown', times: number) =>
    given.filter(({ mark, truth }) => Math.abs(mark[along] - truth[along]) <= times * (mark.U95?.[along] ?? 0)).length;
  const far =
    given.length -
    given.filter(({ mark, truth }) =>
      (['heel', 'crown'] as const).every(
        (along) => Math.abs(mark[along] - truth[along]) <= 3 * (mark.U95?.[along] ?? 0),
      ),
    ).length;
  const plain = given.flatMap(({ mark, truth }) =>
    edgeNames
      .filter((edge) => !truth.onTheLine.includes(edge))
      .map((edge) => touches(mark, edge) === (truth.edges[edge] !== 'clear')),
  );
  const wrong = plain.filter((right) => !right).length;
  return `${name.padEnd(22)} ${answered(trials).padEnd(9)} heel ${share(within('heel', 1), given.length)} crown ${share(within('crown', 1), given.length)} · ${far} · ${wrong}/${plain.length}  ${refusals(trials)}`;
}

const touches = (mark: Mark, edge: EdgeName): boolean => mark.edges[edge] !== 'clear';
const share = (part: number, whole: number): string =>
  `${part}/${whole} (${whole === 0 ? '–' : ((100 * part) / whole).toFixed(1)} %)`;

/** Why those were refused that a person reads. */
function refusals(trials: readonly Trial[]): string {
  const counts = new Map<string, number>();
  for (const { why, shot } of trials)
    if (why !== undefined && shot.eyesight.reads) counts.set(why, (counts.get(why) ?? 0) + 1);
  return [...counts].map(([why, times]) => `${why} ${times}`).join(', ');
}

function printUnreadable(print: (line: string) => void, trials: readonly Trial[]): void {
  for (const manner of new Set(trials.map((one) => one.manner))) {
    const these = trials.filter((one) => one.manner === manner);
    const counts = new Map<string, number>();
    for (const { why } of these) counts.set(why ?? 'answered', (counts.get(why ?? 'answered') ?? 0) + 1);
    print(`${manner.padEnd(22)} ${[...counts].map(([why, times]) => `${why} ${times}`).join(', ')} of ${these.length}`);
  }
}

if (import.meta.main) await bench((line) => process.stdout.write(`${line}\n`), process.argv.slice(2));
