import { drawnFrom } from './plan/drawn.ts';
import { erring, type Noticed } from './plan/erring.ts';
import { firstOrderSubject } from './plan/firstOrder.ts';
import { follow, type Followed } from './plan/followed.ts';
import type { Subject, Way } from './plan/subject.ts';
import { calibration, coverRow, goodSets, pairedRow, rightRow, teardowns, windowRow } from './plan/table.ts';
import { spoilt, twins, twinSubject } from './plan/twin.ts';
import { byPlan, byRule } from './plan/ways.ts';
import { worlds } from './plan/worlds.ts';

/** Axles in each row; fewer by `AXLES=20` while something is being tried, and rows chosen by `ROWS=base,twin`. */
const wanted = Number(process.env['AXLES'] ?? 150);
const chosen = process.env['ROWS']?.split(',');
const first = Number(process.env['FIRST'] ?? 1000);

type Print = (line: string) => void;

function row(print: Print, name: string, subjects: readonly (() => Subject)[], ideal: boolean): void {
  print(`${name}: ${subjects.length} axles`);
  const times: number[] = [];
  const by = (way: () => Way): readonly Followed[] => subjects.map((subject) => follow(subject(), way()));
  const told = (who: string, followed: readonly Followed[]): void => {
    print(
      `  ${who.padEnd(6)} right ${rightRow(followed)} | left window ${windowRow(followed)} | ${teardowns(followed)}`,
    );
    print(`         ${goodSets(followed)}`);
  };
  told(
    'rule',
    by(() => byRule),
  );
  const planned = by(() => byPlan(times));
  told('plan', planned);
  print(`         U95 holds height, face, backlash ${coverRow(planned)}; chances told → kept ${calibration(planned)}`);
  print(`         one plan: ${timed(times)}`);
  if (ideal) byIdeal({ subjects, planned, told, print });
}

interface BesideIdeal {
  readonly subjects: readonly (() => Subject)[];
  readonly planned: readonly Followed[];
  readonly told: (who: string, followed: readonly Followed[]) => void;
  readonly print: Print;
}

function byIdeal({ subjects, planned, told, print }: BesideIdeal): void {
  const followed = subjects.map((subject) => {
    const stand = subject();
    return follow(stand, stand.ideal?.() ?? byRule);
  });
  told('ideal', followed);
  print(`         chances told → kept ${calibration(followed)}`);
  print(`  plan − ideal, paired, after one, two, three changes: ${pairedRow(planned, followed)}`);
  if (!followed.some(({ changes }) => changes.some(({ givesRoom }) => givesRoom))) return;
  const heldBack = subjects.map((subject) => {
    const stand = subject();
    return follow(stand, stand.ideal?.('pinion-stays') ?? byRule);
  });
  told('ideal that leaves the pinion of gears that bind', heldBack);
}

function timed(times: readonly number[]): string {
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number): string => (sorted[Math.floor(share * (sorted.length - 1))] ?? 0).toFixed(0);
  return `median ${at(0.5)} ms, slowest ${at(1)} ms of processor time, ${times.length} plans`;
}

const isWanted = (name: string): boolean => chosen === undefined || chosen.some((part) => name.includes(part));

function erringRow(print: Print): void {
  const world = worlds['base'];
  if (world === undefined) return;
  const subjects = drawnFrom((seed) => firstOrderSubject(world, seed), first, Math.ceil(wanted / 3));
  const noticed = subjects.flatMap((subject) => erring(subject, byPlan([])));
  print(`a hand that errs once: ${noticed.length} slips on ${subjects.length} axles of the base`);
  const slips = Map.groupBy(noticed, ({ slip }: Noticed) => slip);
  for (const [slip, each] of slips) {
    print(`  ${slip}: noticed ${each.filter(({ noticed: seen }) => seen).length} of ${each.length}`);
  }
}

function spoiltRow(print: Print): void {
  const sets = drawnFrom((seed) => twinSubject(seed, spoilt.population, false), spoilt.first, Math.ceil(wanted / 4));
  const followed = sets.map((subject) => follow(subject(), byPlan([])));
  const by = (trial: number): number =>
    followed.filter(({ suspectAt }) => suspectAt !== undefined && suspectAt < trial).length;
  print(
    `sets of the twin that no shim puts right: suspect by trial 1, 2, 3: ${by(1)}, ${by(2)}, ${by(3)} of ${sets.length}`,
  );
}

/**
 * The shop rule, the plan and the ideal side by side, each stopping on what it reads, on axles of two truths that share
 * no code with the model. Right: percent of axles as found, after at most one, two and three changes.
 */
export default async function bench(print: Print): Promise<void> {
  for (const [name, world] of Object.entries(worlds)) {
    if (!isWanted(name)) continue;
    const subjects = drawnFrom((seed) => firstOrderSubject(world, seed), first, wanted);
    row(
      print,
      name,
      subjects.map((subject) => () => subject),
      true,
    );
  }
  for (const [name, { population, first: from }] of Object.entries(twins)) {
    if (isWanted(name))
      row(
        print,
        name,
        drawnFrom((seed) => twinSubject(seed, population, true), from, wanted),
        false,
      );
  }
  if (isWanted('a hand that errs')) erringRow(print);
  if (isWanted('sets that no shim puts right')) spoiltRow(print);
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`));
