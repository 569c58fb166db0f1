import { seeded } from '../../hardware-sim/seeded.ts';
import { base, drawKind, type Kind } from '../../hardware-sim/worlds/axles/population.ts';
import { type Alike, drawChances, ofKind, oneMore } from '../../hardware-sim/worlds/axles/shop.ts';
import type { Shares } from '../../src/shared/axle/experience/alike.ts';
import { experienceFrom } from '../../src/shared/axle/experience/experience.ts';
import { type Lesson, lessonFrom } from '../../src/shared/axle/experience/lesson.ts';
import type { Experience } from '../../src/shared/axle/plan/experience.ts';
import type { TrialSeen } from '../../src/shared/axle/plan/input.ts';
import { subjectBy } from './plan/firstOrder.ts';
import { follow, type Followed } from './plan/followed.ts';
import type { Subject } from './plan/subject.ts';
import { calibration, coverRow, hundredths, pairedRow, rightRow, teardowns, windowRow } from './plan/table.ts';
import { byPlan, byRule } from './plan/ways.ts';

/** Axles in each row, and builds before each of them. */
const wanted = Number(process.env['AXLES'] ?? 100);
const earlierBuilds = Number(process.env['BUILDS'] ?? 20);
const first = Number(process.env['FIRST'] ?? 3000);
/** `STEPS=first` weighs the first step and follows no build. */
const firstStepAlone = process.env['STEPS'] === 'first';

const world = { population: base, told: 'all' as const };
const all: Shares = { hand: true, relief: true, backlash: true };
const handAlone: Shares = { hand: true, relief: false, backlash: false };

/** What the builds before were, and what the notebook says they have in common with the axle on the stand. */
interface Shop {
  readonly earlier: 'same axle' | 'other axles' | 'another axle called the same';
  readonly alike: Alike;
  readonly shares: Shares;
}

const every = (share: number): Alike => ({ hand: share, relief: share, backlash: share });
const nothing = every(0);

const shops: Readonly<Record<string, Shop>> = {
  'same axle, four fifths alike': { earlier: 'same axle', alike: every(0.8), shares: all },
  'same axle, half alike': { earlier: 'same axle', alike: every(0.5), shares: all },
  'same axle in name, nothing alike': { earlier: 'same axle', alike: nothing, shares: all },
  'other axles, same hand, film of its own each time': { earlier: 'other axles', alike: nothing, shares: handAlone },
  'other axles, same hand, film alike': {
    earlier: 'other axles',
    alike: { ...nothing, hand: 0.8 },
    shares: handAlone,
  },
  'another axle called the same': { earlier: 'another axle called the same', alike: every(0.8), shares: all },
};

/** A build as a shop would do it, by the shop rule: every trial of it. */
function built(subject: Subject): readonly TrialSeen[] {
  const trials: TrialSeen[] = [];
  let place = { pinionOut: 0, ringAway: 0 };
  for (let trial = 0; trial < 4; trial += 1) {
    trials.push(subject.tryAt(place, trial));
    const step = byRule(subject, trials);
    if (step.stay) break;
    place = step.place;
  }
  return trials;
}

interface OnStand {
  readonly subject: Subject;
  readonly experience: Experience | undefined;
}

function onStand(shop: Shop, seed: number): OnStand | undefined {
  const random = seeded(seed * 7919 + 211);
  const kind = drawKind(random, base);
  const common = drawChances(random);
  // The axle on the stand is drawn first, so that every row stands before the same ones as far as they are alike.
  const about = ofKind(common, shop.alike);
  const subject = subjectBy({ world, kind, chances: oneMore(random, common, shop.alike), seed, about });
  if (subject === undefined) return undefined;
  const lessons = lessonsOf(shop, kind, seed, common);
  const experience = experienceFrom(
    lessons.map((lesson, n) => ({ id: String(n).padStart(3, '0'), lesson, shares: shop.shares })),
    `${lessons.length} earlier builds`,
  );
  return { subject, experience };
}

function lessonsOf({ earlier, alike }: Shop, kind: Kind, seed: number, common: Float64Array): readonly Lesson[] {
  const random = seeded(seed * 104_729 + 17);
  const others = earlier === 'another axle called the same' ? drawChances(random) : common;
  const lessons: Lesson[] = [];
  for (let n = 0; lessons.length < earlierBuilds && n < 4 * earlierBuilds; n += 1) {
    const of = earlier === 'other axles' ? drawKind(random, base) : kind;
    const before = subjectBy({
      world,
      kind: of,
      chances: oneMore(random, others, alike),
      seed: seed * 1000 + n + 500_000_000,
    });
    const lesson = before === undefined ? undefined : lessonFrom(before.ask(built(before)));
    if (lesson?.ok === true) lessons.push(lesson.value);
  }
  return lessons;
}

function told(print: (line: string) => void, who: string, followed: readonly Followed[]): void {
  print(
    `  ${who.padEnd(8)} right ${rightRow(followed)} | left window ${windowRow(followed)} | ${teardowns(followed)} | U95 ${coverRow(followed)}`,
  );
  print(`           chances told → kept ${calibration(followed)}`);
}

/** What they change of the first step, paired on the same axles and weighed exactly by who knows the population and what its axles have in common. */
function weighed(stands: readonly OnStand[]): string {
  const plan = byPlan([]);
  const worth = stands.flatMap((stand) => {
    const trial = stand.subject.tryAt(nowhere, 0);
    const chanceAt = stand.subject.judge?.(trial);
    if (chanceAt === undefined) return [];
    const [without, having] = [stand.subject, taught(stand)].map((subject) => {
      const step = plan(subject, [trial]);
      return chanceAt(step.stay || step.suspect || step.alarm !== undefined ? nowhere : step.place);
    });
    return [(having ?? 0) - (without ?? 0)];
  });
  return hundredths(worth);
}

const nowhere = { pinionOut: 0, ringAway: 0 };

const taught = ({ subject, experience }: OnStand): Subject => ({
  ...subject,
  ask: (trials) => ({ ...subject.ask(trials), ...(experience === undefined ? {} : { experience }) }),
});

/**
 * The plan with and without what twenty earlier builds teach, on axles of the first-order truth: builds of the same axle,
 * of others, and of another axle under the same name. The earlier builds were done by the shop rule.
 */
export default async function bench(print: (line: string) => void): Promise<void> {
  const rows = process.env['ROWS']?.split(';');
  for (const [name, shop] of Object.entries(shops)) {
    if (rows !== undefined && !rows.some((part) => name.includes(part))) continue;
    const stands: OnStand[] = [];
    for (let seed = first; stands.length < wanted; seed += 1) {
      const stand = onStand(shop, seed);
      if (stand !== undefined) stands.push(stand);
    }
    print(`${name}: ${stands.length} axles, ${earlierBuilds} builds before each`);
    print(`  of the first step, weighed exactly: ${weighed(stands)}`);
    if (firstStepAlone) continue;
    const plan = byPlan([]);
    const without = stands.map(({ subject }) => follow(subject, plan));
    const having = stands.map((stand) => follow(taught(stand), plan));
    told(print, 'without', without);
    told(print, 'with', having);
    print(`  difference in hundredths after one, two, three changes: ${pairedRow(having, without)}`);
  }
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`));
