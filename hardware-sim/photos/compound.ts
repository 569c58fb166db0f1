import type { Random } from '../seeded.ts';
import { layered, type Speckle, speckle } from './speckle.ts';
import type { Part } from './teeth.ts';

/** Share of red, green and blue light that comes back, linear. */
type Tint = readonly [number, number, number];

/** Marking compounds by their colour; reflectances invented, near what such pigments look like. */
const compounds = {
  yellow: [0.72, 0.5, 0.05],
  white: [0.74, 0.72, 0.66],
  'red-lead': [0.66, 0.17, 0.035],
  blue: [0.025, 0.065, 0.3],
  green: [0.06, 0.3, 0.09],
} as const satisfies Record<string, Tint>;
type Compound = keyof typeof compounds;
export const compoundNames = Object.keys(compounds) as readonly Compound[];

const STEEL: Tint = [0.165, 0.155, 0.142];

/** How one film lies on the teeth. */
export interface Film {
  readonly compound: Compound;
  /** How much the brush left here more or less than there, 0…1. */
  readonly unevenness: number;
  /** Width of the smeared rim of a mark, as a share of the film. */
  readonly feather: number;
  /** Share of the film that stays even where the gears met. */
  readonly residue: number;
  /** How well the film hides the steel: absorbance of a film of usual thickness. */
  readonly hiding: number;
}

/**
 * Share of the film still there, 0…1, where the flanks came as near as `gap` (in films): half where the gap is just
 * the film; the rim is smeared, because the flanks slide as they part.
 */
export function filmLeft(gapInFilms: number, feather: number): number {
  const x = Math.min(1, Math.max(0, (gapInFilms - 1) / feather + 0.5));
  return x * x * (3 - 2 * x);
}

/** Gap over film at a place of the flank; infinite where nothing met. */
export type GapInFilms = (heel: number, crown: number) => number;

/** Colour of a surface before light falls on it. */
type Paintwork = (part: Part, x: number, y: number, out: Float64Array) => void;

/** Steel with its grinding, and the film upon it: even on nothing, thick in the fillets, in smears on the lands. */
export function paintwork(film: Film, gap: GapInFilms, random: Random): Paintwork {
  const seeds = Array.from({ length: 4 }, () => Math.floor(random.uniform(1, 2 ** 31)));
  const [lumps, streaks, grind, smears] = seeds.map((seed, n) => (n === 2 ? speckle(seed) : layered(seed))) as [
    Speckle,
    Speckle,
    Speckle,
    Speckle,
  ];
  const pigment = compounds[film.compound];
  const brushed = (x: number, y: number) =>
    Math.max(0.25, 1 + film.unevenness * (0.9 * lumps(5 * x, 3 * y) + 0.6 * streaks(2 * x, 14 * y)));
  const thickness = (part: Part, x: number, y: number): number => {
    if (part === 'floor') return brushed(x, y) * Math.max(0.3, 0.8 + 0.6 * smears(6 * x, 1.5 * y));
    if (part === 'top') return Math.max(0, smears(9 * x, 3 * y) - 0.25);
    if (part === 'end') return Math.max(0, smears(3 * x, 5 * y) - 0.1);
    if (part === 'other-flank') return brushed(x, y);
    const left = filmLeft(gap(x, y), film.feather);
    return brushed(x, y) * (left + (1 - left) * film.residue * (1 + streaks(3 * x, 20 * y)));
  };
  return (part, x, y, out) => {
    const shows = Math.exp(-film.hiding * thickness(part, x, y));
    const steel = 1 + 0.12 * grind(90 * x, part === 'flank' ? 4 * y : 30 * y);
    for (let c = 0; c < 3; c += 1) {
      out[c] = (STEEL[c] as number) * steel * shows + (pigment[c] as number) * (1 - shows);
    }
  };
}
