import type { Contradiction } from './check.ts';
import { toldMove } from './checkStories.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { heightMisfit } from './misfit.ts';

/** Mean squared misfit above which no gear set explains the readings (own choice; sound readings give about 0.3). */
export const unexplained = 3.5;
/** Above this the explanation fits so badly that nothing it promises is told as likelier than not. */
export const doubtful = 1.8;

/**
 * Standard uncertainties by which the height of the last drive mark may lie from where axles that fit would have shown it. A
 * misread figure counts in proportion only, so that one of them can run away while the whole still fits (own choice: of 158
 * sound trials of five worlds none came above 1.9; of one flank fallen and the other not, 3.9 to 5.3).
 */
const outOfReach = 3;

/** Whether no gear set shows what was read: in the whole, or the height on which depth is decided. */
export function isUnexplained({ misfit, axles, readings }: Insight, { trials }: PlanInput): boolean {
  const last = readings.at(-1);
  return (
    (misfit > unexplained && trials.length > 1) ||
    (last !== undefined && heightMisfit(axles, last, readings.length - 1) > outOfReach)
  );
}

/**
 * One chance for one thing: what the plan promises as far as its explanation fits what was read, in fives of a hundred
 * between 5 and 95, because it is known no better. Reasons, screens and command line all tell this one.
 */
export function toldChance(chance: number, misfit: number): number {
  const fitting = misfit > doubtful ? Math.min(0.5, chance) : chance;
  return Math.min(95, Math.max(5, Math.round(fitting * 20) * 5)) / 100;
}

/** The last two trials of a build that no gear set explains. */
export function unexplainedIn({ trials }: PlanInput): Contradiction {
  const [before, after] = [trials.at(-2) ?? trials[0], trials.at(-1) ?? trials[0]];
  if (before === undefined || after === undefined) throw new Error('a plan has at least one trial');
  const between = [Math.max(1, trials.length - 1), trials.length] as const;
  return { kind: 'nothing-explains', also: [], between, told: toldMove(before, after), before, after };
}
