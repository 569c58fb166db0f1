import { taughtAt } from '../plan/guess.ts';
import type { Experience } from '../plan/experience.ts';
import { backlashAnswer } from '../plan/priorOf.ts';
import { causes, type Earlier, lowerOf, type Picture, pictureFrom } from './alike.ts';

/**
 * What earlier builds tell the plan.
 * @param from where it comes from, to be told: "6 earlier builds of this axle".
 * @returns nothing where no build has anything in common with this one: the plan is then what it was.
 */
export function experienceFrom(builds: readonly Earlier[], from: string): Experience | undefined {
  const related = builds.filter(({ shares }) => causes.some((cause) => shares[cause]));
  return related.length === 0 ? undefined : experienceOf(pictureFrom(related), from);
}

function experienceOf(picture: Picture, from: string): Experience {
  const count = taughtAt.length;
  const answer = (name: 'perPinionOut' | 'perRingAway', k: number): Experience['perPinionOut'] => {
    const { mean, spread } = backlashAnswer[name];
    const variance = picture.covariance[k * (count + 2) + k] ?? 1;
    return { mean: mean + spread * (picture.mean[k] ?? 0), spread: spread * Math.sqrt(variance) };
  };
  return {
    taught: { mean: Array.from(picture.mean.subarray(0, count)), lower: Array.from(lowerOf(picture, count)) },
    perPinionOut: answer('perPinionOut', count),
    perRingAway: answer('perRingAway', count + 1),
    from,
  };
}
