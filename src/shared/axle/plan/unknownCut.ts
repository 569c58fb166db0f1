import type { Insight } from './insight.ts';
import { coastShare, type Outlook } from './outlook.ts';

/** Less likely than this, a way of cutting is out of the question. */
const outOfQuestion = 0.1;

/**
 * Whether nobody knows how the gears were cut: not told, and not shown by what a change did to the marks. The pinion
 * brings a mark along the face one way or the other then, so that it is moved for the height, or for what it does on
 * gears cut either way.
 */
export function cutOpen({ sight, axles, readings }: Insight): boolean {
  if (sight.otherwise === undefined) return false;
  const share = axles.filter(({ flanks }) => flanks === sight.flanks).length / axles.length;
  const trials = readings.filter(({ from }) => from === 'first-trial').length;
  return trials < 2 || Math.min(share, 1 - share) >= outOfQuestion;
}

/** Whether a place is better by more than this chance than the present one on gears cut either way, each weighed alone. */
export function everyCutGains(insight: Insight, now: Outlook, there: Outlook, by: number): boolean {
  const { sight, axles } = insight;
  return [true, false].every((asTold) => {
    const among = axles.flatMap(({ flanks }, n) => ((flanks === sight.flanks) === asTold ? [n] : []));
    return among.length > 0 && chanceAmong(there, among) - chanceAmong(now, among) > by;
  });
}

/** Chance of being right over some of the axles, a hard coast edge counted as where nobody knows whether it can be avoided. */
function chanceAmong({ each }: Outlook, among: readonly number[]): number {
  const worth = among.reduce((sum, n) => {
    const one = each[n];
    return one === undefined ? sum : sum + one.worth * (one.hard ? 1 - coastShare : 1);
  }, 0);
  return worth / among.length;
}
