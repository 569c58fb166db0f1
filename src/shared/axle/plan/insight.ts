import { type Aim, aimOf } from './aim.ts';
import { drawAxles } from './draws.ts';
import { type Axle, axleFrom } from './guess.ts';
import type { PlanInput } from './input.ts';
import { type Belief, learn } from './learn.ts';
import { type Cutting, faultyCutting, faultyShare, priorOf, soundCutting } from './priorOf.ts';
import { type Reading, readingsOf } from './reading.ts';
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
  /** Mean squared misfit for each figure read, under the better explanation: far above 1, nothing explains the readings. */
  readonly misfit: number;
}

/** Axles drawn in all. More changed no plan by more than readings can tell. */
const drawn = 56;
/** An explanation less likely than this is left out. */
const ruledOut = 0.02;
/** Figures in one reading that carry weight: places, sizes, edges and the backlash. */
const figuresInReading = 9;

export function insightFrom(input: PlanInput, sight: Sight): Insight {
  const readings = readingsOf(input);
  const under = (cutting: Cutting): Belief => learn({ sight, prior: priorOf(input, sight, cutting), readings });
  const [sound, faulty] = [under(soundCutting), under(faultyCutting)];
  const odds = Math.exp(faulty.evidence - sound.evidence) * (faultyShare / (1 - faultyShare));
  const chance = odds === Infinity ? 1 : odds / (1 + odds);
  const shares = [
    { belief: sound, share: 1 - chance },
    { belief: faulty, share: chance },
  ].filter(({ share }) => share >= ruledOut);
  return {
    sight,
    aim: aimOf(input),
    readings,
    axles: shares.flatMap(({ belief, share }) => drawAxles(belief, Math.max(2, Math.round(drawn * share)))),
    likeliest: shares.map(({ belief }) => axleFrom(belief.about.prior, belief.likeliest.guess)),
    faulty: chance,
    misfit: Math.min(sound.misfit, faulty.misfit) / (figuresInReading * readings.length),
  };
}
