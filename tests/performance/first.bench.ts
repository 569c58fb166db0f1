import { drawnFrom } from './plan/drawn.ts';
import { firstOrderSubject } from './plan/firstOrder.ts';
import type { Subject, Way } from './plan/subject.ts';
import { hundredths } from './plan/table.ts';
import { byPlan, byRule } from './plan/ways.ts';
import { worlds } from './plan/worlds.ts';

/** Axles in each row, `AXLES=20`; rows by `ROWS=base,far`; the first seed by `FIRST=610000`. */
const wanted = Number(process.env['AXLES'] ?? 40);
const chosen = process.env['ROWS']?.split(',');
const first = Number(process.env['FIRST'] ?? 610_000);

/** What the first step of each way is worth on one axle (0…1), and what the plan told of its own. */
interface Judged {
  readonly rule: number;
  readonly plan: number;
  readonly observer: number;
  readonly ideal: number;
  /** The ideal told everything of the set, where the technician is not. */
  readonly toldAll: number | undefined;
  readonly told: number | undefined;
}

const nowhere = { pinionOut: 0, ringAway: 0 };

function judged(subject: Subject): Judged | undefined {
  const { judge, observer, ideal } = subject;
  if (judge === undefined || observer === undefined || ideal === undefined) return undefined;
  const trial = subject.tryAt(nowhere, 0);
  const chanceAt = judge(trial);
  const worth = (way: Way): { readonly worth: number; readonly told: number | undefined } => {
    const { stay, suspect, alarm, place, chance } = way(subject, [trial]);
    return { worth: chanceAt(stay || suspect || alarm !== undefined ? nowhere : place), told: chance };
  };
  const plan = worth(byPlan([]));
  return {
    rule: worth(byRule).worth,
    plan: plan.worth,
    observer: worth(observer()).worth,
    ideal: worth(ideal()).worth,
    toldAll: subject.idealToldAll === undefined ? undefined : worth(subject.idealToldAll()).worth,
    told: plan.told,
  };
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

function row(name: string, each: readonly Judged[]): string {
  const of = (way: 'rule' | 'plan' | 'observer' | 'ideal'): string =>
    (100 * mean(each.map((one) => one[way]))).toFixed(1);
  const below = (way: 'observer' | 'ideal'): string => hundredths(each.map((one) => one.plan - one[way]));
  return `| ${name} | ${each.length} | ${of('rule')} | ${of('plan')} | ${of('observer')} | ${of('ideal')} | ${below('observer')} | ${below('ideal')} |`;
}

const bins = [0, 0.2, 0.4, 0.6, 0.8, 0.9, 1.001] as const;

function calibration(each: readonly Judged[]): string {
  const rows = bins.slice(0, -1).map((low, n) => {
    const among = each.filter(({ told }) => told !== undefined && told >= low && told < (bins[n + 1] ?? 2));
    const told = (100 * mean(among.map((one) => one.told ?? 0))).toFixed(0);
    return among.length === 0 ? '' : `${told}→${hundredths(among.map(({ plan }) => plan))} (${among.length})`;
  });
  return rows.filter((told) => told !== '').join('  ');
}

/**
 * What the first change is worth, weighed exactly: after one trial of each axle of the first-order truth, the chance that
 * drive and backlash are right where rule, plan, observer and ideal would go, by who knows the population. Differences are
 * paired, with their standard errors. Coast is left out, because it would have to be looked for all over again each time.
 */
export default async function bench(print: (line: string) => void): Promise<void> {
  print('| world | axles | rule | plan | observer | ideal | plan − observer | plan − ideal |');
  print('| --- | --- | --- | --- | --- | --- | --- | --- |');
  const all: Judged[] = [];
  for (const [name, world] of Object.entries(worlds)) {
    if (chosen !== undefined && !chosen.some((part) => name.includes(part))) continue;
    const each = drawnFrom((seed) => firstOrderSubject(world, seed), first, wanted)
      .map(judged)
      .filter((one) => one !== undefined);
    print(row(name, each));
    const toldAll = each.map((one) => one.toldAll).filter((one) => one !== undefined);
    if (toldAll.length > 0) print(`  an ideal told everything of these sets: ${(100 * mean(toldAll)).toFixed(1)}`);
    all.push(...each);
  }
  print(row('all rows', all));
  print(`chances told → weighed: ${calibration(all)}`);
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`));
