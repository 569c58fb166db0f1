import type { Field } from '../../basics/field.ts';
import { type Chosen, type Colours, colourAt, laidThrough, type Three } from './paint.ts';
import { darkest, inLight, ownLight } from './ownLight.ts';
import { smoothed } from './smoothing.ts';

/** Compound and bare metal told apart, from one way to begin. */
export interface ToldApart {
  /** 0 compound … 1 bare, a little beyond at both ends. */
  readonly bareness: Field;
  /** Mean colour of the compound less that of the metal. */
  readonly difference: Three;
  /** How the compound looks at every cell, or would. */
  readonly compound: Colours;
  /** How far apart the two lie, in standard deviations of what each of them varies by itself. */
  readonly apart: number;
}

/** Bareness up to which a cell teaches what compound looks like, and from which on what metal does. */
const [surelyCompound, surelyBare] = [0.3, 0.7];
/** Fewer cells than these teach nothing. */
const [leastCompound, leastBare] = [200, 60];

/**
 * Tells compound from metal by all three numbers of colour at once. In every round what looks like compound says how
 * compound would look at every other cell, what looks bare says the same of metal, and each cell's bareness is how far it
 * lies from the one to the other. The line from one to the other is laid where the two differ most for what each varies by
 * itself (Fisher's discriminant, textbook): where glare makes lightness vary, colour decides; where the compound has no
 * colour, lightness does.
 * @param sees whether a cell shows anything
 * @param start a first guess of bareness, however rough
 * @param rounds how often what was told apart teaches the next telling
 * @returns undefined where the guess leads to a flank of one kind only
 */
export function tellApart(
  colours: Colours,
  sees: (cell: number) => boolean,
  start: Field,
  rounds: number,
): ToldApart | undefined {
  let told: ToldApart | undefined;
  for (let round = 0; round < rounds; round += 1) {
    const bareness = told?.bareness ?? start;
    const compound = bareness.where((value, cell) => value < surelyCompound && sees(cell));
    const bare = bareness.where((value, cell) => value > surelyBare && sees(cell));
    if (count(compound) < leastCompound || count(bare) < leastBare) return undefined;
    const slow = laidThrough(colours, compound, 15);
    const slowMetal = metalThrough(colours, bare, slow);
    const light = ownLight(colours, [
      { chosen: compound, paint: slow },
      { chosen: bare, paint: slowMetal },
    ]);
    const [film, metal] = [inLight(slow, light), inLight(slowMetal, light)];
    const scatter = meanScatter(scatterOf(colours, film, compound), scatterOf(colours, metal, bare));
    told = between(colours, { slow, film, metal, scatter, sees });
  }
  return told;
}

const count = (cells: Chosen): number => {
  let sum = 0;
  for (const one of cells) sum += one;
  return sum;
};

/**
 * Metal lies in the light that the compound shows: there is too little of it to know the light by itself. What it mirrors
 * differs from place to place, so a slope of its own is let, held stiffly.
 */
function metalThrough(colours: Colours, bare: Chosen, film: Colours): Colours {
  const usual = film[0].mean() + darkest;
  const light = film[0].map((L) => Math.min(1.6, Math.max(0.5, (L + darkest) / usual)));
  const even = inLight(
    colours,
    light.map((one) => 1 / one),
  );
  return inLight(laidThrough(even, bare, 60), light);
}

/** Variances and covariances of L*, a*, b*: the upper triangle row by row. */
type Scatter = readonly [LL: number, La: number, Lb: number, aa: number, ab: number, bb: number];

function scatterOf(colours: Colours, paint: Colours, cells: Chosen): Scatter {
  const sum: [number, number, number, number, number, number] = [0, 0, 0, 0, 0, 0];
  let counted = 0;
  for (let cell = 0; cell < cells.length; cell += 2) {
    if (cells[cell] !== 1) continue;
    const [L, a, b] = lessThan(colourAt(colours, cell), colourAt(paint, cell));
    sum[0] += L * L;
    sum[1] += L * a;
    sum[2] += L * b;
    sum[3] += a * a;
    sum[4] += a * b;
    sum[5] += b * b;
    counted += 1;
  }
  return [sum[0] / counted, sum[1] / counted, sum[2] / counted, sum[3] / counted, sum[4] / counted, sum[5] / counted];
}

const lessThan = (p: Three, q: Three): Three => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
const times = (p: Three, q: Three): number => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];

/** A camera's eight bits and its noise: no colour is known better than this variance. */
const least = 2;

function meanScatter(p: Scatter, q: Scatter): Scatter {
  const half = (n: 0 | 1 | 2 | 3 | 4 | 5): number => (p[n] + q[n]) / 2;
  return [half(0) + least, half(1), half(2), half(3) + least, half(4), half(5) + least];
}

interface Looks {
  readonly slow: Colours;
  readonly film: Colours;
  readonly metal: Colours;
  readonly scatter: Scatter;
  readonly sees: (cell: number) => boolean;
}

/** Where film and metal come this near to each other, the mean distance of the two stands in for theirs. */
const nearest = 0.35;

function between(colours: Colours, { slow, film, metal, scatter, sees }: Looks): ToldApart {
  const difference = lessThan(meanColour(film), meanColour(metal));
  const weights = against(scatter, difference);
  const whole = times(weights, difference);
  const raw = film[0].map((_, cell) => {
    if (!sees(cell)) return 0.5;
    const here = colourAt(film, cell);
    const gone = times(weights, lessThan(here, colourAt(colours, cell)));
    const all = times(weights, lessThan(here, colourAt(metal, cell)));
    return Math.min(1.3, Math.max(-0.3, gone / Math.max(nearest * whole, all)));
  });
  return { bareness: smoothed(raw), difference, compound: slow, apart: Math.sqrt(whole) };
}

const meanColour = ([L, a, b]: Colours): Three => [L.mean(), a.mean(), b.mean()];

/** The inverse of the scatter applied to a difference (adjugate over determinant). */
function against([LL, La, Lb, aa, ab, bb]: Scatter, [L, a, b]: Three): Three {
  const [A, B, C] = [aa * bb - ab * ab, Lb * ab - La * bb, La * ab - Lb * aa];
  const [D, E, F] = [LL * bb - Lb * Lb, La * Lb - LL * ab, LL * aa - La * La];
  const size = LL * A + La * B + Lb * C;
  return [(A * L + B * a + C * b) / size, (B * L + D * a + E * b) / size, (C * L + E * a + F * b) / size];
}
