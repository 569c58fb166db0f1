import { choleskyOf, inverseOf, logDeterminant, type Square } from '../../basics/cholesky.ts';
import { type Lesson, lessonAt } from './lesson.ts';

/** What builds can have in common: the hand that paints and reads, the gears as they are cut, what moves the backlash. */
export const causes = ['hand', 'relief', 'backlash'] as const;
export type Cause = (typeof causes)[number];
export type Shares = Readonly<Record<Cause, boolean>>;

/** What is weighed apart, because one hand may brush a different film each time and yet read sizes alike. */
const traits = ['film', 'reading', 'relief', 'backlash'] as const;
type Trait = (typeof traits)[number];
const causeOf: Readonly<Record<Trait, Cause>> = {
  film: 'hand',
  reading: 'hand',
  relief: 'relief',
  backlash: 'backlash',
};

/** The trait of each unknown of `lessonAt`: film; relief in common and of each flank; sizes as read; backlash. */
const traitAt: readonly Trait[] = [
  'film',
  ...Array<Trait>(6).fill('relief'),
  'reading',
  'reading',
  'backlash',
  'backlash',
];
const size = lessonAt.length;

/** An earlier build, and what it has in common with the one on the stand. */
export interface Earlier {
  readonly id: string;
  readonly lesson: Lesson;
  readonly shares: Shares;
}

/** How much of what builds differ in they have in common, for each trait: 0 nothing, 1 all. */
type Alike = Readonly<Record<Trait, number>>;

/**
 * Degrees of likeness that are weighed against each other, and how likely each is beforehand (own choice): as often as not
 * builds that are called alike have nothing in common. One hand brushes thicker and thinner from day to day, so that of
 * the film at most half is in common, however alike single marks make it look.
 */
const degrees: Readonly<Record<Trait, readonly number[]>> = {
  film: [0, 0.25, 0.5],
  reading: [0, 0.6, 0.92],
  relief: [0, 0.6, 0.92],
  backlash: [0, 0.6, 0.92],
};
const likelyAlike = { nothing: 0.5, something: 0.25 } as const;

/** A normal picture of the next build over `lessonAt`, in standard units of the plain prior (there it is 0 ± 1). */
export interface Picture {
  readonly mean: Float64Array;
  readonly covariance: Square;
  /** How alike builds turned out to be in each trait, on the average over what is weighed. */
  readonly alike: Alike;
}

/**
 * What earlier builds lead to expect of the next. Each unknown of a build is what its kind has in common and what it has
 * of its own, together as unsure as the plain prior; how much is in common is not known and is weighed by how well it
 * explains the builds (a normal hierarchy, integrated exactly for each degree of likeness: Gelman and others 2013,
 * chapter 5, from memory). Builds that contradict each other are not alike, and then the plain prior is left as it was.
 */
export function pictureFrom(builds: readonly Earlier[]): Picture {
  const told = builds.toSorted((a, b) => (a.id < b.id ? -1 : 1));
  const weighed = degreesFor(told).map((alike) => underDegree(told, alike));
  const most = Math.max(...weighed.map(({ evidence }) => evidence));
  const weights = weighed.map(({ evidence }) => Math.exp(evidence - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const shares = weights.map((weight) => weight / total);
  const average = (of: (one: Weighed) => number): number =>
    weighed.reduce((sum, one, n) => sum + (shares[n] ?? 0) * of(one), 0);
  const mean = Float64Array.from({ length: size }, (_, k) => average((one) => one.mean[k] ?? 0));
  const covariance = Float64Array.from({ length: size * size }, (_, at) => {
    const [i, j] = [Math.floor(at / size), at % size];
    const off = (one: Weighed, k: number): number => (one.mean[k] ?? 0) - (mean[k] ?? 0);
    return average((one) => (one.covariance[at] ?? 0) + off(one, i) * off(one, j));
  });
  const common = (trait: Trait): number => average(({ alike }) => alike[trait]);
  return { mean, covariance, alike: eachTrait(common) };
}

const eachTrait = (of: (trait: Trait) => number): Alike => ({
  film: of('film'),
  reading: of('reading'),
  relief: of('relief'),
  backlash: of('backlash'),
});

/** Every combination of degrees; of a trait whose cause no build shares there is nothing to weigh. */
function degreesFor(builds: readonly Earlier[]): readonly Alike[] {
  const shared = (trait: Trait): boolean => builds.some(({ shares }) => shares[causeOf[trait]]);
  return traits.reduce<readonly Alike[]>(
    (so, trait) =>
      so.flatMap((alike) => (shared(trait) ? degrees[trait] : [0]).map((degree) => ({ ...alike, [trait]: degree }))),
    [eachTrait(() => 0)],
  );
}

interface Weighed {
  readonly alike: Alike;
  readonly mean: Float64Array;
  readonly covariance: Square;
  /** Logarithm of how probable all lessons are under this degree, but for a constant. */
  readonly evidence: number;
}

/** The next build where builds are alike to this degree: what the kind has in common, and what the next has of its own. */
function underDegree(builds: readonly Earlier[], alike: Alike): Weighed {
  const common = Float64Array.from(traitAt, (trait) => Math.sqrt(alike[trait]));
  const at = (values: Float64Array, k: number): number => values[k] ?? 0;
  const [sharpness, pull] = [new Float64Array(size * size), new Float64Array(size)];
  let evidence = traits.reduce(
    (sum, trait) => sum + Math.log(alike[trait] === 0 ? likelyAlike.nothing : likelyAlike.something),
    0,
  );
  for (const build of builds) {
    const said = saidOfKind(build, alike);
    said.sharpness.forEach((value, k) => (sharpness[k] = at(sharpness, k) + value));
    said.pull.forEach((value, k) => (pull[k] = at(pull, k) + value));
    evidence += said.evidence;
  }
  const scaled = sharpness.map((value, k) => at(common, Math.floor(k / size)) * value * at(common, k % size));
  for (let k = 0; k < size; k += 1) scaled[k * size + k] = at(scaled, k * size + k) + 1;
  const spread = inverseOf(scaled, size);
  const wanted = pull.map((value, k) => value * at(common, k));
  const found = times(spread, wanted);
  evidence += (inner(wanted, found) - logDeterminant(scaled, size)) / 2;
  const covariance = spread.map((value, k) => at(common, Math.floor(k / size)) * value * at(common, k % size));
  traitAt.forEach((trait, k) => (covariance[k * size + k] = at(covariance, k * size + k) + 1 - alike[trait]));
  return { alike, mean: found.map((value, k) => value * at(common, k)), covariance, evidence };
}

/**
 * What one build says of its kind, once what it has of its own (spread `own`) is left open: information Λ and pull η
 * become (Λ⁻¹ + D)⁻¹ and its share of η, here by way of (Λ + D⁻¹)⁻¹, because a lesson may be silent in some direction.
 */
function saidOfKind({ lesson, shares }: Earlier, alike: Alike) {
  const own = traitAt.map((trait) => (shares[causeOf[trait]] ? 1 - alike[trait] : 1));
  const speaks = traitAt.map((trait) => shares[causeOf[trait]]);
  const pull = Float64Array.from(lesson.pull);
  const widened = Float64Array.from(lesson.information);
  own.forEach((spread, k) => (widened[k * size + k] = (widened[k * size + k] ?? 0) + 1 / spread));
  const open = inverseOf(widened, size);
  const settled = times(open, pull);
  const spreads = own.reduce((sum, spread) => sum + Math.log(spread), 0);
  const by = (k: number): number => (speaks[k] === true ? 1 / (own[k] ?? 1) : 0);
  return {
    evidence: (inner(pull, settled) - logDeterminant(widened, size) - spreads) / 2,
    pull: settled.map((value, k) => by(k) * value),
    sharpness: open.map((value, at) => {
      const [i, j] = [Math.floor(at / size), at % size];
      return (i === j ? by(i) : 0) - by(i) * value * by(j);
    }),
  };
}

const inner = (a: Float64Array, b: Float64Array): number => a.reduce((sum, value, k) => sum + value * (b[k] ?? 0), 0);

const times = (matrix: Square, vector: Float64Array): Float64Array =>
  vector.map((_, i) => inner(matrix.subarray(i * size, (i + 1) * size), vector));

/** Cholesky factor of the first so many unknowns of a picture. */
export function lowerOf({ covariance }: Picture, count: number): Square {
  const first = Float64Array.from(
    { length: count * count },
    (_, k) => covariance[Math.floor(k / count) * size + (k % count)] ?? 0,
  );
  return choleskyOf(first, count);
}
