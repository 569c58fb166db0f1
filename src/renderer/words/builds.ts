import type { BuildCounts } from '../../shared/contract/builds.ts';
import type { BuildSummary } from '../../shared/job/shop/summary.ts';
import type { Which } from '../../shared/job/shop/sought.ts';
import { dayWords } from './days.ts';

/** How far a build has come, in the few words a line has room for. */
export function stageWords({ stage, standsAt, next, certified }: BuildSummary): string {
  if (next.do === 'comeback') return 'Heard on the road';
  if (stage === 'certified' && certified !== undefined) return `Certified ${dayWords(certified.at)}`;
  return standsAt === '' ? 'Not assembled yet' : standsAt;
}

/** The customer and the plate, as far as they were typed. */
export const ownerWords = ({ customer, plate }: BuildSummary): string =>
  [customer, plate].filter((words) => words !== undefined).join(', ');

export const whichWords: Readonly<Record<Which, string>> = {
  'on-the-bench': 'On the bench',
  unfinished: 'Unfinished',
  certified: 'Certified',
  'comeback-due': 'Comeback due',
  'put-away': 'Put away',
  'thrown-away': 'Thrown away',
};

/** "None of 302 has “quokka”.", and whether some have not been looked through yet. */
export function noneWords(sought: string, { all, unread }: Pick<BuildCounts, 'all' | 'unread'>): string {
  const left = unread === 0 ? '' : ` ${unread} are still being read.`;
  const words = sought.trim();
  if (words === '') return `None of ${all}.${left}`;
  return `None of ${all} has “${words}”.${left}`;
}
