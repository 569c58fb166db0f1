import type { Mark } from '../../src/shared/axle/mark/mark.ts';
import { contradictionIn } from '../../src/shared/axle/plan/check.ts';
import type { TrialSeen } from '../../src/shared/axle/plan/input.ts';
import { repaintOf } from '../../src/shared/axle/plan/repaint.ts';
import { sightOf } from '../../src/shared/axle/plan/sight.ts';
import { firstOrderSubject } from './plan/firstOrder.ts';
import { shopRule } from './plan/shopRule.ts';
import type { Stood, Subject } from './plan/subject.ts';
import { worlds } from './plan/worlds.ts';

/** Axles in each row; fewer by `AXLES=20` while something is being tried, and rows chosen by `ROWS=base,far`. */
const wanted = Number(process.env['AXLES'] ?? 150);
const chosen = process.env['ROWS']?.split(',');
const firstSeed = Number(process.env['FIRST'] ?? 71_000);

interface Second {
  readonly subject: Subject;
  /** Where the change was to lead. */
  readonly told: Stood;
}

/** What a hand makes of a change: the second trial as it stands in the notebook. */
type Hand = (second: Second) => TrialSeen;

const standing = ({ subject, told }: Second, really: Stood): TrialSeen => ({
  ...subject.tryAt(really, 1),
  pinionOut_mm: told.pinionOut,
  ringAway_mm: told.ringAway,
});
const honest: Hand = (second) => standing(second, second.told);
const by =
  (pinion: number, ring: number): Hand =>
  (second) =>
    standing(second, { pinionOut: pinion * second.told.pinionOut, ringAway: ring * second.told.ringAway });

/** A film wiped off shows two fifths of the mark, clear of every edge. */
const wiped = (mark: Mark): Mark => ({
  ...mark,
  length: 0.4 * mark.length,
  height: 0.4 * mark.height,
  edges: { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' },
});
const onMarks =
  (change: (pattern: TrialSeen['pattern']) => TrialSeen['pattern']): Hand =>
  (second) => {
    const seen = honest(second);
    return { ...seen, pattern: change(seen.pattern) };
  };

const hands: Readonly<Record<string, Hand>> = {
  honest,
  'both the wrong way': by(-1, -1),
  'depth the wrong way': by(-1, 1),
  'sides exchanged': by(1, -1),
  'notch twice the size': by(1, 2),
  'film wiped off': onMarks(({ drive, coast }) => ({ drive: wiped(drive), coast: wiped(coast) })),
  'flanks exchanged': onMarks(({ drive, coast }) => ({ drive: coast, coast: drive })),
};

/** Changes smaller than this leave nothing to be done wrongly (mm). */
const something = 0.02;
const touches: Readonly<Record<string, (told: Stood) => boolean>> = {
  'depth the wrong way': ({ pinionOut }) => Math.abs(pinionOut) >= something,
  'sides exchanged': ({ ringAway }) => Math.abs(ringAway) >= something,
  'notch twice the size': ({ ringAway }) => Math.abs(ringAway) >= something,
};

/** What who knows the population would notice, at the same threshold; a second of processor time for each look. */
const idealAxles = Number(process.env['IDEAL'] ?? 0);
const idealBelieves = 0.82;
/** A wiped film is none of the errors that the ideal knows. */
const unknownToIdeal = 'film wiped off';

interface Count {
  noticed: number;
  of: number;
}

/** On the first so many axles: how often the ideal noticed each error, and how often the look before planning did. */
function besideIdeal(
  world: (typeof worlds)[string],
): ReadonlyMap<string, { readonly ideal: Count; readonly ours: Count }> {
  const counts = new Map(
    Object.keys(hands).map((name) => [name, { ideal: { noticed: 0, of: 0 }, ours: { noticed: 0, of: 0 } }]),
  );
  for (const { second, first } of idealAxles === 0 ? [] : seconds(world, idealAxles)) {
    for (const [name, hand] of Object.entries(hands)) {
      const count = counts.get(name);
      if (count === undefined || name === unknownToIdeal || touches[name]?.(second.told) === false) continue;
      const chance = second.subject.asTold?.([first, hand(second)]) ?? 1;
      add(count.ideal, chance < idealBelieves);
      add(count.ours, noticed(second, first, hand));
    }
  }
  return counts;
}

function add(count: Count, hit: boolean): void {
  count.of += 1;
  if (hit) count.noticed += 1;
}

/** So many axles with their first trial and the shop rule's change, where there is one worth speaking of. */
function seconds(
  world: (typeof worlds)[string],
  count: number,
): readonly { readonly second: Second; readonly first: TrialSeen }[] {
  const found: { readonly second: Second; readonly first: TrialSeen }[] = [];
  for (let seed = firstSeed, axles = 0; axles < count; seed += 1) {
    const subject = firstOrderSubject(world, seed);
    if (subject === undefined) continue;
    axles += 1;
    const first = subject.tryAt({ pinionOut: 0, ringAway: 0 }, 0);
    const [low, high] = subject.ask([]).limits.backlash_mm;
    const told = shopRule([first], (low + high) / 2);
    if (Math.abs(told.pinionOut) + Math.abs(told.ringAway) < something) continue;
    found.push({ second: { subject, told }, first });
  }
  return found;
}

function noticed(second: Second, first: TrialSeen, hand: Hand): boolean {
  const input = second.subject.ask([first, hand(second)]);
  const sight = sightOf(input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  return contradictionIn(input, sight.value.model) !== undefined || repaintOf(input) !== undefined;
}

/** First change by the shop rule, done by each hand; how many are noticed before the next shim. */
function rowOf(world: (typeof worlds)[string]): readonly string[] {
  const counts = new Map(Object.keys(hands).map((name): [string, Count] => [name, { noticed: 0, of: 0 }]));
  const beside = besideIdeal(world);
  for (const { second, first } of seconds(world, wanted)) {
    for (const [name, hand] of Object.entries(hands)) {
      const count = counts.get(name);
      if (count === undefined || touches[name]?.(second.told) === false) continue;
      add(count, noticed(second, first, hand));
    }
  }
  return [...counts].map(([name, { noticed: seen, of }]) => {
    const told = `${((100 * seen) / Math.max(1, of)).toFixed(0)} % of ${of}`;
    const other = beside.get(name);
    if (other === undefined || other.ideal.of === 0) return told;
    return `${told} (ideal ${other.ideal.noticed}, ours ${other.ours.noticed} of ${other.ideal.of})`;
  });
}

/** What the look before planning finds of a hand that errs, and what it cries for nothing (column "honest"). */
export default async function bench(print: (line: string) => void): Promise<void> {
  print(
    `Second trials in which something is noticed before the next shim; first-order truth, ${wanted} axles a row from seed ${firstSeed}`,
  );
  if (idealAxles > 0)
    print(`In brackets who knows the population and what hands do wrong, on the first ${idealAxles}.`);
  print(`| world | ${Object.keys(hands).join(' | ')} |`);
  print(`| --- |${' --- |'.repeat(Object.keys(hands).length)}`);
  const isChosen = (name: string): boolean => chosen === undefined || chosen.some((part) => name.includes(part));
  for (const [name, world] of Object.entries(worlds).filter(([row]) => isChosen(row)))
    print(`| ${name} | ${rowOf(world).join(' | ')} |`);
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`));
