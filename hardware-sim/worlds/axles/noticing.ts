import type { Random } from '../../seeded.ts';
import { type Knowing, priorCloud, taught, weighedIn } from './cloud.ts';
import type { TrialRead } from './hands.ts';

/** What a hand may have done in a change, and how often before anything was read (3 in 100 for each error). */
interface Story {
  readonly prior: number;
  /** The second trial as it would have been written without the error. */
  readonly really: (told: TrialRead) => TrialRead;
}

const moved =
  (pinion: number, ring: number): Story['really'] =>
  (told) => ({ ...told, pinionOut: pinion * told.pinionOut, ringAway: ring * told.ringAway });

const errors: readonly Story[] = [
  { prior: 0.03, really: moved(-1, -1) },
  { prior: 0.03, really: moved(-1, 1) },
  { prior: 0.03, really: moved(1, -1) },
  { prior: 0.03, really: moved(1, 2) },
  { prior: 0.03, really: ({ drive, coast, ...told }) => ({ ...told, drive: coast, coast: drive }) },
];

const particles = 160;

/**
 * Chance that a second trial came about as it was told, weighed exactly by who knows the population and everything a hand
 * may do wrong: what two trials can tell at all. The first trial stands at nought.
 */
export function asToldChance(
  knowing: Knowing,
  [first, second]: readonly [TrialRead, TrialRead],
  random: Random,
): number {
  const before = taught(priorCloud(knowing, particles, random), knowing, [first], random);
  const evidence = (trial: TrialRead): number =>
    weighedIn(before, { knowing, trials: [first, trial], random }).evidence;
  const told = Math.log(1 - errors.reduce((sum, { prior }) => sum + prior, 0)) + evidence(second);
  const others = errors.map(({ prior, really }) => Math.log(prior) + evidence(really(second)));
  return 1 / (1 + others.reduce((sum, other) => sum + Math.exp(other - told), 0));
}
