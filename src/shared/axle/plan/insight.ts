import { type Aim, aimOf } from './aim.ts';
import { drawAxles } from './draws.ts';
import { type Axle, axleFrom } from './guess.ts';
import type { PlanInput } from './input.ts';
import { type Belief, learn, straightEvidence } from './learn.ts';
import { faultyCutting, faultyShare, priorOf, soundCutting } from './priorOf.ts';
import { type Reading, readingsOf } from './reading.ts';
import { evidenceOf, ridgeOf, type Stop } from './ridge.ts';
import type { Sight } from './sight.ts';

/** Everything known about the axle on the stand after its trials. */
export interface Insight {
  readonly sight: Sight;
  readonly aim: Aim;
  readonly readings: readonly Reading[];
  /** Axles that would all have shown what was read, spread as we are unsure. */
  readonly axles: readonly Axle[];
  /** The likeliest ones: of a sound set, of a faulty one, or both where neither can be ruled out. */
  readonly likeliest: readonly Axle[];
  /** Chance that the set is not a sound one. */
  readonly faulty: number;
  /** How far this axle follows the earlier builds (0…1); undefined where there are none. */
  readonly followsEarlier: number | undefined;
  /** Mean squared misfit for each figure read, under the better explanation: far above 1, nothing explains the readings. */
  readonly misfit: number;
}

/**
 * Axles drawn in all. After one trial quite different ones fit what was read, and with fewer a chance is told off by 0.06
 * by the draw alone; later ones are alike, and each takes longer.
 */
const drawn = { afterOne: 80, later: 56 } as const;
/** An explanation less likely than this is left out. */
const ruledOut = 0.02;
/** Figures in one reading that carry weight: places, sizes, edges and the backlash. */
const figuresInReading = 9;

/**
 * How far earlier builds are believed before anything is read (own choice): an axle called the same may be another, and
 * the readings then say so.
 */
const believed = 0.8;

export function insightFrom(input: PlanInput, sight: Sight): Insight {
  const readings = readingsOf(input);
  const count = input.trials.length === 1 ? drawn.afterOne : drawn.later;
  const shares = sharesOf(explanationsOf(input, sight, readings));
  const among = shares.filter(({ share }) => share >= ruledOut);
  const shareOf = (kind: Explanation['kind']): number =>
    shares.reduce((sum, one) => sum + (one.kind === kind ? one.share : 0), 0);
  return {
    sight,
    aim: aimOf(input),
    readings,
    axles: among.flatMap(({ belief, stops, share }) =>
      drawAxles(belief, Math.max(2, Math.round(count * share)), stops),
    ),
    likeliest: among.map(({ belief }) => axleFrom(belief.about.prior, belief.likeliest.guess)),
    faulty: shareOf('faulty'),
    followsEarlier: input.experience === undefined ? undefined : 1 - shareOf('unlike-earlier'),
    misfit: Math.min(...shares.map(({ belief }) => belief.misfit)) / (figuresInReading * readings.length),
  };
}

/** Every way to explain the readings: sound or not, like the earlier builds or not, and cut either way where nobody told. */
function explanationsOf(input: PlanInput, sight: Sight, readings: readonly Reading[]): readonly Explanation[] {
  const cuts = sight.otherwise === undefined ? [sight] : [sight, sight.otherwise];
  const { experience, ...alone } = input;
  const under = (kind: Explanation['kind'], seen: Sight, share: number): Learnt => {
    const from = kind === 'unlike-earlier' ? alone : input;
    const prior = priorOf(from, seen, kind === 'faulty' ? faultyCutting : soundCutting);
    return { kind, belief: learn({ sight: seen, prior, readings }), share: share / cuts.length };
  };
  const sound = 1 - faultyShare;
  const learnt = cuts.flatMap((seen) => [
    under('sound', seen, sound * (experience === undefined ? 1 : believed)),
    ...(experience === undefined ? [] : [under('unlike-earlier', seen, sound * (1 - believed))]),
    under('faulty', seen, faultyShare),
  ]);
  return withoutHopeless(learnt).map(({ kind, belief, share }) => {
    const stops = ridgeOf(belief);
    return { kind, belief, stops, weight: Math.log(share) + evidenceOf(stops) };
  });
}

/** An explanation beside its likeliest axle, before anything else that fits it is looked for. */
interface Learnt {
  readonly kind: Explanation['kind'];
  readonly belief: Belief;
  readonly share: number;
}

/** So far behind (logarithm) in the straight pictures, which are off by 3 at most, an explanation is not walked along. */
const hopeless = 9;

function withoutHopeless(learnt: readonly Learnt[]): readonly Learnt[] {
  const weights = learnt.map(({ belief, share }) => Math.log(share) + straightEvidence(belief));
  const most = Math.max(...weights);
  return learnt.filter((_, n) => (weights[n] ?? most) > most - hopeless);
}

/** Axles enough for a middle and a spread in one sentence. */
const inPassing = 20;

/** A few sound axles that would have shown what was read: for looking back, where no shim hangs on it. */
export function glimpse(input: PlanInput, sight: Sight): readonly Axle[] {
  const about = { sight, prior: priorOf(input, sight, soundCutting), readings: readingsOf(input) };
  return drawAxles(learn(about), inPassing);
}

/** One way to explain the readings, and the logarithm of its weight. */
interface Explanation {
  readonly kind: 'sound' | 'unlike-earlier' | 'faulty';
  readonly belief: Belief;
  readonly stops: readonly Stop[];
  readonly weight: number;
}

/**
 * How much of what the readings say for one way of cutting against the other is believed (own choice): it hangs on how
 * unsure film and relief are held to be, which nobody has measured, and one trial is not to settle it.
 */
const believedOfCut = 0.5;

/** What each explanation weighs among all of them. */
function sharesOf(explanations: readonly Explanation[]): readonly (Explanation & { readonly share: number })[] {
  const most = Math.max(...explanations.map(({ weight }) => weight));
  const totals = new Map<Sight, number>();
  for (const { belief, weight } of explanations) {
    const { sight } = belief.about;
    totals.set(sight, (totals.get(sight) ?? 0) + Math.exp(weight - most));
  }
  const all = [...totals.values()].reduce((sum, total) => sum + total ** believedOfCut, 0);
  return explanations.map((one) => {
    const cut = totals.get(one.belief.about.sight) ?? 1;
    return { ...one, share: (Math.exp(one.weight - most) * cut ** (believedOfCut - 1)) / all };
  });
}
