import type { PlanInput, Side } from './input.ts';
import type { Prior } from './guess.ts';
import type { Sight } from './sight.ts';

/** How far each flank's relief may be off its place, as fractions of the flank. */
export type Cutting = Prior['cutting'];

/** A sound set, and one that was cut or paired wrongly (own choice, said in docs/plan.md). */
export const soundCutting: Cutting = { heel: 0.08, crown: 0.08 };
export const faultyCutting: Cutting = { heel: 0.2, crown: 0.2 };
/** How often sets are faulty before anything is known (own choice). */
export const faultyShare = 1 / 16;

/** What the model's backlash for each mm moved is off by (mm per mm): published answers are 0.5 to 0.8, the model's about 0.9. */
export const backlashAnswer = {
  perPinionOut: { mean: 0, spread: 0.09 },
  perRingAway: { mean: -0.04, spread: 0.15 },
} as const;

/** Film (mm) and logarithmic spreads where nobody measured either; docs/plan.md says where each figure comes from. */
export const plainPrior = {
  film_mm: 0.008,
  filmSpread: 0.45,
  curvatureSpread: { shared: 0.3, own: 0.25 },
  withFilm: 0.8,
} as const;

/**
 * Most first trials stand within 0.3 mm, some much farther: 0.1 mm where the old shim or a depth tool led, half a
 * millimetre or more with gears of which nothing is known (own choice; between a spread of 0.25 mm and one of 0.5).
 */
const startOfTrials = { pinionOut_mm: 0.3, tail: 0.064, ringAway_mm: 0.5 } as const;

/** What is usual before anything has been read; docs/plan.md says where each figure comes from. */
export function priorOf(input: PlanInput, sight: Sight, cutting: Cutting): Prior {
  const { experience } = input;
  const [low, high] = input.limits.backlash_mm;
  const recorded = input.target.kind === 'used-set' ? input.target.backlash_mm : undefined;
  const film = filmSaid(input);
  return {
    flanks: sight.flanks,
    film_mm: film ?? plainPrior.film_mm,
    filmSpread: film === undefined ? plainPrior.filmSpread : 0.3,
    filmChange: 0.2,
    curvature: curvatures(input, sight),
    // Given curvatures are somebody's measurement; assumed ones may be off by a third either way.
    curvatureSpread: input.set.easeoff === undefined ? plainPrior.curvatureSpread : { shared: 0.2, own: 0.15 },
    withFilm: input.set.easeoff === undefined ? plainPrior.withFilm : 0,
    biasSpread: 0.15,
    sizes: { middle: 0.92, spread: 0.13 },
    cutting,
    alongFace: 0.0008,
    position: startOfTrials,
    // Fully, not at all, or anything between, one about as likely as the other.
    rolled: { middle: 0, spread: 2 },
    backlash_mm: recorded ?? (low + high) / 2,
    backlashSpread_mm: Math.max(0.02, (high - low) * 0.25),
    perPinionOut: experience?.perPinionOut ?? backlashAnswer.perPinionOut,
    perRingAway: experience?.perRingAway ?? backlashAnswer.perRingAway,
    ...(experience === undefined || film !== undefined || input.set.easeoff !== undefined
      ? {} // Somebody's measurement of this very axle is worth more than what others were like.
      : { taught: experience.taught }),
  };
}

/** A rolled mark is about a tenth longer and taller than the ellipse its curvatures stand for, or they are larger by this. */
const largerThanPainted = 1.2;

function curvatures(input: PlanInput, sight: Sight): Prior['curvature'] {
  const { driveFlank } = input.set;
  const coastFlank = driveFlank === 'convex' ? 'concave' : 'convex';
  const factor = input.set.easeoff === undefined ? largerThanPainted : 1;
  const rolled = ({ a, b, c }: Prior['curvature'][Side]) => ({ a: a * factor, b, c: c * factor });
  return {
    drive: rolled(sight.model.flanks[driveFlank].easeoff),
    coast: rolled(sight.model.flanks[coastFlank].easeoff),
  };
}

/** The film (mm) where somebody measured it; the last word counts. */
function filmSaid({ trials }: PlanInput): number | undefined {
  const sides: readonly Side[] = ['drive', 'coast'];
  const said = trials
    .flatMap(({ pattern }) => sides.map((side) => pattern[side].made?.film_um))
    .filter((film) => film !== undefined);
  const last = said.at(-1);
  return last === undefined ? undefined : last / 1000;
}
