import { inverseOf, solveLower, solveUpper } from '../../basics/cholesky.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { unexplained } from '../plan/fit.ts';
import { sharedAt, taughtAt } from '../plan/guess.ts';
import type { PlanInput, TrialSeen } from '../plan/input.ts';
import { type Belief, learn } from '../plan/learn.ts';
import type { Mark } from '../mark/mark.ts';
import { priorOf, soundCutting } from '../plan/priorOf.ts';
import { readingsOf } from '../plan/reading.ts';
import { sightOf } from '../plan/sight.ts';

/** The unknowns a lesson is about: those of `taughtAt`, then backlash for each mm of the pinion and of the ring gear. */
export const lessonAt: readonly number[] = [...taughtAt, sharedAt('perPinionOut'), sharedAt('perRingAway')];

/**
 * What one finished build says about `lessonAt`, in standard units of the plain prior and without that prior: how
 * sharply (`information`, a square of that size, row after row) and towards what (`pull` = information × estimate).
 */
export interface Lesson {
  readonly information: readonly number[];
  readonly pull: readonly number[];
}

/** Figures in one reading that carry weight; as the plan counts them. */
const figuresInReading = 9;

/**
 * What a finished build teaches, from all that was read on it and from nothing else: the same notebook always gives the
 * same lesson.
 * @returns a Problem where no such set exists or no set explains what was read.
 */
export function lessonFrom(input: PlanInput): Result<Lesson, 'no-such-set' | 'unexplained'> {
  const asked = plainly(input);
  const sight = sightOf(asked);
  if (!sight.ok) return fail({ ...sight.problem, kind: 'no-such-set' });
  const readings = readingsOf(asked);
  const belief = learn({ sight: sight.value, prior: priorOf(asked, sight.value, soundCutting), readings });
  if (belief.misfit > unexplained * figuresInReading * readings.length) {
    const sentence = 'No gear set explains what was read on this build.';
    return fail({ kind: 'unexplained', sentence, remedy: 'It teaches nothing.' });
  }
  return ok(lessonOf(belief));
}

/** Asked as if nothing had been learnt before and no film measured: lessons must not lean on one another. */
function plainly({ experience: _experience, ...input }: PlanInput): PlanInput {
  const { easeoff: _easeoff, ...set } = input.set;
  return { ...input, set, trials: input.trials.map(withoutFilm) };
}

const withoutFilm = (trial: TrialSeen): TrialSeen => ({
  ...trial,
  pattern: { drive: unmeasured(trial.pattern.drive), coast: unmeasured(trial.pattern.coast) },
});

const unmeasured = <M extends Mark>({ made: _made, ...mark }: M): Omit<M, 'made'> => mark;

/** The belief's normal picture over the lesson's unknowns alone, less what was believed beforehand (0 ± 1 each). */
function lessonOf({ precision, likeliest }: Belief): Lesson {
  const size = lessonAt.length;
  const covariance = new Float64Array(size * size);
  lessonAt.forEach((index, column) => {
    const unit = new Float64Array(likeliest.guess.length);
    unit[index] = 1;
    const along = solveUpper(precision, solveLower(precision, unit));
    lessonAt.forEach((other, row) => (covariance[row * size + column] = along[other] ?? 0));
  });
  const sharpness = inverseOf(covariance, size);
  const at = Float64Array.from(lessonAt, (index) => likeliest.guess[index] ?? 0);
  const pull = timesVector(sharpness, at);
  for (let k = 0; k < size; k += 1) sharpness[k * size + k] = (sharpness[k * size + k] ?? 1) - 1;
  return blurred(sharpness, pull);
}

/**
 * How far a lesson may be off in each unknown (variance, standard units), whatever its readings say: the straight-line
 * picture at the likeliest axle is now and then far too sharp, and the mesh model is no truer than this from one kind of
 * axle to the next. Own choice: half of what is usual.
 */
const offBy = 0.25;

/** (Λ⁻¹ + offBy)⁻¹ and its share of the pull, by way of (Λ + 1/offBy)⁻¹ because a lesson may be silent in some direction. */
function blurred(information: Float64Array, pull: Float64Array): Lesson {
  const size = lessonAt.length;
  const widened = Float64Array.from(information);
  for (let k = 0; k < size; k += 1) widened[k * size + k] = (widened[k * size + k] ?? 0) + 1 / offBy;
  const open = inverseOf(widened, size);
  return {
    information: Array.from(open, (value, k) => (k % (size + 1) === 0 ? 1 / offBy : 0) - value / offBy ** 2),
    pull: Array.from(timesVector(open, pull), (value) => value / offBy),
  };
}

const timesVector = (matrix: Float64Array, vector: Float64Array): Float64Array =>
  vector.map((_, row) =>
    vector.reduce((sum, value, column) => sum + (matrix[row * vector.length + column] ?? 0) * value, 0),
  );
