import type { Random } from '../../seeded.ts';
import type { Brushed, Nearness } from './contact.ts';
import { type Dirt, rustColour } from './dirt.ts';
import type { Lighting, Rgb } from './light.ts';
import type { SurfaceName } from './picture.ts';
import { ripple } from './ripple.ts';

/** Marking compounds: share of light a thick layer sends back. Invented, near what such pigments look like. */
export const compounds = {
  white: [0.8, 0.79, 0.75],
  cream: [0.76, 0.68, 0.5],
  yellow: [0.76, 0.56, 0.06],
  orange: [0.74, 0.27, 0.035],
  red: [0.52, 0.065, 0.045],
  green: [0.08, 0.36, 0.13],
  blue: [0.035, 0.1, 0.42],
} as const satisfies Record<string, Rgb>;
export type CompoundName = keyof typeof compounds;

/** Metals: light scattered back, and the share mirrored of the room. Invented. */
export const metals = {
  dark: { scatters: [0.055, 0.053, 0.052], mirrors: 0.06, sharp: 9 },
  bright: { scatters: [0.2, 0.195, 0.185], mirrors: 0.26, sharp: 22 },
} as const;
export type MetalName = keyof typeof metals;

interface Scheme {
  readonly compound: CompoundName;
  readonly metal: MetalName;
  readonly film: Brushed;
  /** Share of the film left where the flanks met. */
  readonly left: Nearness;
  readonly lighting: Lighting;
  readonly dirt: Dirt;
}

/** Light from one pixel: its surface, its place, and the numbers of `Lighting.litAt`. */
type Glow = (surface: SurfaceName, at: (n: number) => number, out: Float64Array) => void;

/** What a painted tooth sends to the eye. */
export function glowing(scheme: Scheme, random: Random): Glow {
  const { film, lighting, metal, dirt } = scheme;
  const steel = metals[metal];
  const pigment = compounds[scheme.compound].map((one) => one * random.uniform(0.88, 1.1));
  const other = secondBeside(scheme.compound);
  const ground = ripple(random, 30, 3);
  const oil = ripple(random, 2.5, 1.5);
  const wiped = ripple(random, 3, 4);
  const painted = thicknessOf(scheme, wiped);
  return (surface, at, out) => {
    const [x, y] = [at(0), at(1)];
    const thickness = painted(surface, x, y);
    const bare = Math.exp(-film.hiding * thickness);
    const shade = surface === 'flank' ? lighting.shade(x, y) : 1;
    const sky = lighting.ambient * shelter(surface, y) * (0.6 + 0.4 * at(8)) * (0.6 + 0.4 * shade);
    const room = Math.max(0.15, 1 + 0.45 * lighting.room(at(6), at(7)));
    const grain = 1 + 0.09 * ground(x, y);
    const gloss = 60 * (1 - bare) + steel.sharp * bare;
    const [rusty, mixed, polish] = [dirt.rust(x, y), dirt.second(x, y), dirt.polish(x, y)];
    for (let c = 0; c < 3; c += 1) {
      const lit = sky + (1 - lighting.ambient) * shade * lampsAt(lighting, at, c);
      // Oil under and beside a film darkens metal a little; the film's own colour also filters what metal sends through it.
      const own = (1 - mixed) * (pigment[c] ?? 0) + mixed * (other[c] ?? 0);
      const through = bare * (1 - 0.15 * Math.min(1, thickness)) * (1 - (1 - own) * 0.4 * Math.min(1, thickness));
      const clean = (steel.scatters[c] ?? 0) * polish;
      const metalLight = (1 - rusty) * clean + rusty * (rustColour[c] ?? 0);
      const mirrored = steel.mirrors * (clean / steel.scatters[0]) * room * lit * bare * grain * (1 - rusty);
      const glint =
        (0.35 * bare + 0.25) *
        lighting.glints *
        glintAt(lighting, at, c, gloss, 0.06 * ground(x, y) + 0.05 * oil(x, y));
      const sheen = lighting.sheen * Math.max(0, oil(x, y) - 0.1) * 0.5 * lit;
      out[c] = (metalLight * grain * through + own * (1 - bare)) * lit + mirrored + glint * shade + sheen;
    }
  };
}

/** What was in the brush before: white, or yellow where white is painted with now. */
const secondBeside = (compound: CompoundName): Rgb =>
  compound === 'white' || compound === 'cream' ? compounds.yellow : compounds.white;

function thicknessOf({ film, left, dirt }: Scheme, wiped: (x: number, y: number) => number) {
  return (surface: SurfaceName, x: number, y: number): number => {
    if (surface === 'far') return film.laid(x + 2, y);
    if (surface === 'floor') return film.laid(x, y) * (1.1 + 0.5 * wiped(x, y));
    if (surface === 'land') return Math.max(0, wiped(4 * x, y) - 0.3);
    if (surface === 'end') return Math.max(0, wiped(x, y) - 0.2);
    if (surface !== 'flank') return 0;
    const share = left(x, y);
    return film.laid(x, y) * dirt.kept(x, y) * (share + (1 - share) * film.stays(x, y));
  };
}

/** Deep in the slot less of the sky is seen. */
const shelter = (surface: SurfaceName, y: number): number => {
  if (surface === 'floor') return 0.4;
  return surface === 'flank' || surface === 'far' ? 0.8 + 0.4 * y : 1;
};

const lampsAt = ({ lamps }: Lighting, at: (n: number) => number, c: number): number =>
  lamps.reduce((sum, lamp, n) => sum + at(2 + n) * (lamp.colour[c] ?? 1), 0);

function glintAt({ lamps }: Lighting, at: (n: number) => number, c: number, gloss: number, rough: number): number {
  return lamps.reduce((sum, lamp, n) => {
    const off = at(4 + n) + rough;
    return sum + (lamp.colour[c] ?? 1) * Math.exp(-gloss * off * off);
  }, 0);
}
