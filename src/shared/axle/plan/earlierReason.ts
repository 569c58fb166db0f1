import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';

/** Below this an axle is said not to follow the builds before it. */
const follows = 0.5;

/** What earlier builds had to say in this plan, where there are any. */
export function earlierReason({ followsEarlier }: Insight, { experience }: PlanInput): readonly string[] {
  if (experience === undefined || followsEarlier === undefined) return [];
  return [
    followsEarlier >= follows
      ? `What is usual comes from ${experience.from}; these readings agree with it.`
      : `These readings do not go with ${experience.from}, which count for little here: look whether it is the same axle, compound and hand.`,
  ];
}
