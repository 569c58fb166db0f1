import type { Random } from '../../seeded.ts';
import { axleBy, type Chances, chancesIn, type WorldAxle } from './axle.ts';
import { likelihood } from './likelihood.ts';
import type { Kind, Population } from './population.ts';
import type { TrialRead } from './hands.ts';

/** One axle that may stand there. */
export interface Particle {
  readonly chances: Chances;
  readonly axle: WorldAxle;
  /** Logarithm of how probable the trials so far are on it, the newest trial apart. */
  readonly before: number;
  readonly newest: number;
}

/** What the ideal knows: the population with all its spreads and what it was told of the set; not this axle's chances. */
export interface Knowing {
  readonly population: Population;
  /** The set with its true geometry. */
  readonly kind: Kind;
  /** Another set that it may be, by all that was told, as often as the population has it; where left out, the set is known. */
  readonly mayBe?: (random: Random) => Kind;
  /** What is known of axles like this one beforehand: its chances from those that are its own alone. */
  readonly about?: (own: Chances) => Chances;
}

const movesEach = 10;
/** Of so many moves one asks whether it is another set, where that is not known. */
const anotherSetEvery = 3;

export function priorCloud(knowing: Knowing, count: number, random: Random): readonly Particle[] {
  return Array.from({ length: count }, () => {
    const chances = Float64Array.from({ length: chancesIn }, () => random.normal(0, 1));
    const kind = knowing.mayBe?.(random) ?? knowing.kind;
    return { chances, axle: axleOf(knowing, kind, chances), before: 0, newest: 0 };
  });
}

const axleOf = ({ population, about }: Knowing, kind: Kind, chances: Chances): WorldAxle =>
  axleBy(population, kind, about?.(chances) ?? chances);

/**
 * Weighs in one more trial exactly: the trial is let in little by little, so that half of the cloud always counts, and
 * after each portion every particle walks within the prior and what has been let in (sequential Monte Carlo).
 * @param trials all trials, the new one last.
 */
export const taught = (
  cloud: readonly Particle[],
  knowing: Knowing,
  trials: readonly TrialRead[],
  random: Random,
): readonly Particle[] => weighedIn(cloud, { knowing, trials, random }).cloud;

/** What is weighed in: all trials, the new one last. */
interface Weighing {
  readonly knowing: Knowing;
  readonly trials: readonly TrialRead[];
  readonly random: Random;
}

/** The cloud with the new trial weighed in, and the logarithm of how probable that trial was beforehand. */
export function weighedIn(
  cloud: readonly Particle[],
  { knowing, trials, random }: Weighing,
): { readonly cloud: readonly Particle[]; readonly evidence: number } {
  const newest = trials.length - 1;
  let now = cloud.map((particle): Particle => ({
    ...particle,
    before: particle.before + particle.newest,
    newest: likelihood(knowing.population, particle.axle, trials[newest], newest),
  }));
  let [portion, evidence] = [0, 0];
  while (portion < 1) {
    const more = portionFor(now, 1 - portion);
    evidence += meanWeight(now, more);
    now = redrawn(now, more, random);
    portion += more;
    now = walked(now, { knowing, trials, portion, random });
  }
  return { cloud: now, evidence };
}

/** Logarithm of the mean of what a portion of the new trial counts on each axle. */
function meanWeight(cloud: readonly Particle[], portion: number): number {
  const most = cloud.reduce((best, { newest }) => Math.max(best, newest), Number.NEGATIVE_INFINITY);
  const sum = weightsOf(cloud, portion).reduce((all, weight) => all + weight, 0);
  return portion * most + Math.log(sum / cloud.length);
}

/** The largest portion that leaves half of the cloud counting. */
function portionFor(cloud: readonly Particle[], left: number): number {
  const counting = (portion: number): number => {
    const weights = weightsOf(cloud, portion);
    const [sum, squares] = weights.reduce(([s, q], w) => [s + w, q + w * w], [0, 0]);
    return (sum * sum) / squares / cloud.length;
  };
  if (counting(left) >= 0.5) return left;
  let [low, high] = [0, left];
  for (let round = 0; round < 20; round += 1) {
    const half = (low + high) / 2;
    if (counting(half) >= 0.5) low = half;
    else high = half;
  }
  return Math.max(low, 1e-4);
}

function weightsOf(cloud: readonly Particle[], portion: number): readonly number[] {
  const most = cloud.reduce((best, { newest }) => Math.max(best, newest), Number.NEGATIVE_INFINITY);
  return cloud.map(({ newest }) => Math.exp(portion * (newest - most)));
}

function redrawn(cloud: readonly Particle[], portion: number, random: Random): Particle[] {
  const weights = weightsOf(cloud, portion);
  const each = weights.reduce((a, b) => a + b, 0) / cloud.length;
  let [sum, next] = [0, random.next() * each];
  return cloud.flatMap((particle, index) => {
    sum += weights[index] ?? 0;
    const copies: Particle[] = [];
    while (next < sum) {
      copies.push(particle);
      next += each;
    }
    return copies;
  });
}

interface Walk {
  readonly knowing: Knowing;
  readonly trials: readonly TrialRead[];
  readonly portion: number;
  readonly random: Random;
}

/** Metropolis steps along differences of two other particles, which have the cloud's own shape (ter Braak 2006, memory). */
function walked(cloud: readonly Particle[], walk: Walk): Particle[] {
  const { random } = walk;
  const now = [...cloud];
  const scale = 2.38 / Math.sqrt(2 * 20);
  for (let round = 0; round < movesEach; round += 1) {
    for (let index = 0; index < now.length; index += 1) {
      const here = now[index];
      const [one, other] = [now[pick(random, now.length)], now[pick(random, now.length)]];
      if (here === undefined || one === undefined || other === undefined) continue;
      const stride = (round % 2 === 0 ? scale : scale / 2.5) * random.uniform(0.6, 1.2);
      const chances = here.chances.map(
        (chance, k) => chance + stride * ((one.chances[k] ?? 0) - (other.chances[k] ?? 0)) + random.normal(0, 0.02),
      );
      now[index] = accepted(here, chances, here.axle.kind, walk);
    }
    if (round % anotherSetEvery === 0) askWhetherAnother(now, walk);
  }
  return now;
}

/** Where the set is not known, every axle is held against one like it of another set. */
function askWhetherAnother(now: Particle[], walk: Walk): void {
  const { mayBe } = walk.knowing;
  if (mayBe === undefined) return;
  now.forEach((here, index) => (now[index] = accepted(here, here.chances, mayBe(walk.random), walk)));
}

const pick = (random: Random, count: number): number => Math.floor(random.next() * count);
const lengthOf = (chances: Chances): number => chances.reduce((sum, chance) => sum + chance * chance, 0);

function accepted(here: Particle, chances: Chances, kind: Kind, walk: Walk): Particle {
  const { knowing, trials, portion, random } = walk;
  const { population } = knowing;
  const prior = (lengthOf(here.chances) - lengthOf(chances)) / 2;
  const level = Math.log(random.next()) - prior + here.before + portion * here.newest;
  const axle = axleOf(knowing, kind, chances);
  const last = trials.length - 1;
  const newest = likelihood(population, axle, trials[last], last);
  let before = 0;
  for (let trial = 0; trial < last; trial += 1) before += likelihood(population, axle, trials[trial], trial);
  return before + portion * newest > level ? { chances, axle, before, newest } : here;
}
