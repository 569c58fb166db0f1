import { type Aim, aimOf } from './aim.ts';
import { drawAxles } from './draws.ts';
import { type Axle, axleFrom } from './guess.ts';
import type { PlanInput } from './input.ts';
import { type Belief, learn } from './learn.ts';
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

/** Axles drawn in all. More changed no plan by more than readings can tell. */
const drawn = 56;
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
  const shares = sharesOf(explanationsOf(input, sight, readings));
  const among = shares.filter(({ share }) => share >= ruledOut);
  const shareOf = (kind: Explanation['kind']): number =>
    shares.reduce((sum, one) => sum + (one.kind === kind ? one.share : 0), 0);
  return {
    sight,
    aim: aimOf(input),
    readings,
    axles: among.flatMap(({ belief, stops, share }) =>
      drawAxles(belief, Math.max(2, Math.round(drawn * share)), stops),
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
  const under = (kind: Explanation['kind'], seen: Sight, share: number): Explanation => {
    const from = kind === 'unlike-earlier' ? alone : input;
    const prior = priorOf(from, seen, kind === 'faulty' ? faultyCutting : soundCutting);
    const belief = learn({ sight: seen, prior, readings });
    const stops = ridgeOf(belief);
    return { kind, belief, stops, weight: Math.log(share / cuts.length) + evidenceOf(stops) };
  };
  const sound = 1 - faultyShare;
  return cuts.flatMap((seen) => [
    under('sound', seen, sound * (experience === undefined ? 1 : believed)),
    ...(experience === undefined ? [] : [under('unlike-earlier', seen, sound * (1 - believed))]),
    under('faulty', seen, faultyShare),
  ]);
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

/** What each explanation weighs among all of them. */
function sharesOf(explanations: readonly Explanation[]): readonly (Explanation & { readonly share: number })[] {
  const most = Math.max(...explanations.map(({ weight }) => weight));
  const total = explanations.reduce((sum, { weight }) => sum + Math.exp(weight - most), 0);
  return explanations.map((one) => ({ ...one, share: Math.exp(one.weight - most) / total }));
}
