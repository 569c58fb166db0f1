import { isNone } from '../../../src/shared/basics/result.ts';
import type { Expected, PlanAnswer } from '../../../src/shared/axle/plan/answer.ts';
import { plan } from '../../../src/shared/axle/plan/plan.ts';
import { shopRule } from './shopRule.ts';
import type { Step, Way } from './subject.ts';

const numberOr = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);

export const byRule: Way = (subject, trials) => {
  const [low, high] = subject.ask([]).limits.backlash_mm;
  const last = trials.at(-1);
  const place = shopRule(trials, (low + high) / 2);
  const inWindow = last !== undefined && last.backlash.min_mm >= low && last.backlash.max_mm <= high;
  const stay = inWindow && place.pinionOut === last.pinionOut_mm;
  return { stay, suspect: false, alarm: undefined, place };
};

/** The plan, its processor time counted. */
export const byPlan =
  (times: number[]): Way =>
  (subject, trials) => {
    const from = process.cpuUsage();
    const answer = plan(subject.ask(trials));
    const { user, system } = process.cpuUsage(from);
    times.push((user + system) / 1000);
    if (!answer.ok) throw new Error(answer.problem.sentence);
    return stepOf(answer.value);
  };

function stepOf({ decision, chance, expected, pinionOut_mm, ringAway_mm }: PlanAnswer): Step {
  return {
    stay: decision !== 'change',
    suspect: decision === 'suspect',
    alarm: decision === 'check' || decision === 'repaint' ? decision : undefined,
    place: { pinionOut: pinionOut_mm, ringAway: ringAway_mm },
    ...(isNone(chance) ? {} : { chance }),
    ...(isNone(expected) ? {} : { expected: toldBy(expected) }),
  };
}

const toldBy = ({ backlash, pattern, U95 }: Expected): NonNullable<Step['expected']> => ({
  crown: pattern.drive.crown,
  heel: numberOr(pattern.drive.heel),
  backlash: backlash.mean_mm,
  U95: { crown: U95.drive.crown, heel: numberOr(U95.drive.heel), backlash: U95.backlash_mm },
});
