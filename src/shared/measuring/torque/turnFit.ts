import { at } from '../../basics/at.ts';
import { choleskyOf, dot, solveLower, solveUpper, type Square } from '../../basics/cholesky.ts';
import { mean } from '../../basics/statistics.ts';
import { correlationFactor } from './correlated.ts';

/** What a stretch of turning says about the mean over a whole turn. */
export interface TurnMean {
  readonly mean: number;
  /** Standard uncertainty: what the part of the turn that was not seen may do, and how unsteady the rest was. */
  readonly u: number;
  /** Chance that less than a whole turn was seen. */
  readonly partly: number;
  /** Change from the first to the last value, beside the waves. */
  readonly change: number;
}

/** How far the shaft went between the first value and the last, in turns: known, or with a weight for each possibility. */
export interface TurnsGuess {
  readonly turns: number;
  readonly weight: number;
  /** Places of the values, in turns from the first. */
  readonly places: readonly number[];
}

/**
 * The mean over a whole turn, of readings that cover a part of it, or an unknown number of turns.
 *
 * A torque that swings with the turn is a mean and three waves. How large the waves are is not known: every size from
 * one per cent to a third of the mean is tried, the second and third wave half and a quarter as large (own assumption, told in
 * docs/uncertainty.md), and so is every number of turns that a hand may have made. Each way is weighed by how well it
 * explains the readings; the mean and the doubt are those of all of them together (Bayes' rule for a linear model,
 * textbook). What the readings do not settle, because the part that was seen is short, stays in the doubt.
 *
 * @param values torques evenly spaced in time, at most a few dozen
 * @param guesses how far the shaft went, at least one
 * @param least smallest standard deviation a value can have: noise of the gauge and its step
 */
export function meanOverTurn(values: readonly number[], guesses: readonly TurnsGuess[], least: number): TurnMean {
  const middle = mean(values);
  const level = Math.max(Math.abs(middle), 1e-9);
  const centred = values.map((value) => value - middle);
  const designs = guesses.map((guess) => ({ ...guess, normal: normalOf(guess.places, centred) }));
  const first = explain(designs, level, least, 1);
  const residuals = residualsOf(first.best, centred);
  // What is left under the noise is how the waves were held back, not how the torque wanders.
  const wanders = mean(residuals.map((residual) => residual ** 2)) > least ** 2;
  const factor = wanders ? correlationFactor(residuals) : 1;
  const found = factor < 1.5 ? first : explain(designs, level, least, factor);
  return { mean: middle + found.mean, u: found.u, partly: found.partly, change: found.change };
}

interface Normal {
  readonly rows: readonly (readonly number[])[];
  /** Sums of products of the columns, and of each with the values; then of the values with themselves. */
  readonly products: Square;
  readonly withValues: Float64Array;
  readonly squares: number;
}

interface Design extends TurnsGuess {
  readonly normal: Normal;
}

const orders = [1, 2, 3] as const;
const width = 2 + 2 * orders.length;

/** Columns: the mean, two for each wave, and a slow change with time that averages out. */
function normalOf(places: readonly number[], values: readonly number[]): Normal {
  const last = places.length - 1;
  const rows = places.map((place, index) => [
    1,
    ...orders.flatMap((order) => [Math.cos(2 * Math.PI * order * place), Math.sin(2 * Math.PI * order * place)]),
    last === 0 ? 0 : (2 * index) / last - 1,
  ]);
  const products = new Float64Array(width * width);
  const withValues = new Float64Array(width);
  for (const [index, row] of rows.entries()) {
    for (let a = 0; a < width; a += 1) {
      withValues[a] = at(withValues, a) + at(row, a) * at(values, index);
      for (let b = 0; b < width; b += 1)
        products[a * width + b] = at(products, a * width + b) + at(row, a) * at(row, b);
    }
  }
  return { rows, products, withValues, squares: values.reduce((sum, value) => sum + value ** 2, 0) };
}

/**
 * Sizes of the first wave as shares of the mean, with how likely each is: every amplitude up to a sixth alike, a third half as
 * likely, and some shafts run true.
 */
const sizes = [
  [0.0003, 0.03],
  [0.01, 0.01],
  [0.02, 0.02],
  [0.04, 0.04],
  [0.08, 0.08],
  [0.16, 0.16],
  [0.32, 0.08],
] as const;
/** How many times the least noise a value may scatter. */
const scatters = [1, 2, 4, 8, 16, 32] as const;
/** Slow change over the stretch, as a share of the mean: bearings that settle a little. */
const change = 0.03;

interface Explained {
  readonly mean: number;
  readonly u: number;
  readonly partly: number;
  readonly change: number;
  readonly best: { readonly design: Design; readonly coefficients: Float64Array } | undefined;
}

/** Weighs every way of explaining the values. `correlated` values are so many times fewer than they look. */
function explain(designs: readonly Design[], level: number, least: number, correlated: number): Explained {
  const ways: Way[] = [];
  for (const design of designs) {
    for (const [size, likely] of sizes) {
      const expected = expectedOf(level * size, level * change);
      const log = Math.log(design.weight * likely);
      for (const scatter of scatters) ways.push(wayOf(design, expected, { sd: least * scatter, correlated }, log));
    }
  }
  const top = ways.reduce((most, way) => Math.max(most, way.log), -Infinity);
  let [whole, first, second, partly, slope] = [0, 0, 0, 0, 0];
  for (const { log, mean: one, variance, slope: sloping, design } of ways) {
    const weight = Math.exp(log - top);
    whole += weight;
    first += weight * one;
    second += weight * (variance + one ** 2);
    slope += weight * sloping;
    if (design.turns < 0.97) partly += weight;
  }
  const average = first / whole;
  return {
    mean: average,
    u: Math.sqrt(Math.max(0, second / whole - average ** 2)),
    partly: partly / whole,
    change: (2 * slope) / whole,
    best: ways.find(({ log }) => log === top),
  };
}

/** One way of explaining the values. */
interface Way {
  readonly design: Design;
  readonly log: number;
  readonly mean: number;
  readonly variance: number;
  readonly slope: number;
  readonly coefficients: Float64Array;
}

/** What is believed beforehand of the columns: 1/σ² of each, nought for the mean, and the sum of ln σ². */
interface Expected {
  readonly precisions: Float64Array;
  readonly logs: number;
}

function expectedOf(wave: number, drift: number): Expected {
  const sds = [...orders.flatMap((order) => [0, 0].map(() => wave / 2 ** (order - 1))), drift];
  return {
    precisions: Float64Array.from([0, ...sds.map((sd) => 1 / sd ** 2)]),
    logs: sds.reduce((sum, sd) => sum + 2 * Math.log(sd), 0),
  };
}

interface Scatter {
  readonly sd: number;
  readonly correlated: number;
}

/** One way: waves of this size, values that scatter so much. @param log of how likely it is beforehand */
function wayOf(design: Design, expected: Expected, { sd, correlated }: Scatter, log: number): Way {
  const { products, withValues, squares, rows } = design.normal;
  const per = 1 / (sd ** 2 * correlated);
  const matrix = products.map((product) => product * per);
  for (let a = 0; a < width; a += 1) matrix[a * width + a] = at(matrix, a * width + a) + at(expected.precisions, a);
  const lower = choleskyOf(matrix, width);
  const right = withValues.map((product) => product * per);
  const coefficients = solveUpper(lower, solveLower(lower, right));
  const first = solveLower(lower, firstUnit);
  let determinant = 0;
  for (let a = 0; a < width; a += 1) determinant += 2 * Math.log(at(lower, a * width + a));
  const misfit = 2 * (rows.length / correlated) * Math.log(sd) + squares * per - dot(coefficients, right);
  return {
    design,
    log: log - 0.5 * (misfit + determinant + expected.logs),
    mean: at(coefficients, 0),
    variance: dot(first, first),
    slope: at(coefficients, width - 1),
    coefficients,
  };
}

const firstUnit = Float64Array.from({ length: width }, (_, a) => (a === 0 ? 1 : 0));

/** What the best way leaves over. */
function residualsOf(best: Explained['best'], values: readonly number[]): readonly number[] {
  if (best === undefined) return values;
  const { design, coefficients } = best;
  return design.normal.rows.map((row, index) =>
    row.reduce((rest, column, a) => rest - column * at(coefficients, a), at(values, index)),
  );
}
