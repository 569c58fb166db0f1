import type { Random } from '../../seeded.ts';
import { heightAt, type Tooth } from './tooth.ts';
import { eased, pick, type Ripple, ripple } from './ripple.ts';

/** How near the flanks came, 1 on the outline of the mark, less inside; places as fractions. */
export type Nearness = (heel: number, crown: number) => number;

/** The mark that is there, from its outline alone. */
interface Contact {
  readonly near: Nearness;
  /** Share of the film that is left, 0…1: half on the outline. */
  readonly left: Nearness;
}

/** What the drawn outlines may be narrowed to; sizes are shares of face and height. */
export interface ContactManner {
  readonly length: readonly [number, number];
  readonly tall: readonly [number, number];
  /** How far off the middle it may lie, in shares of the room beside it: above 1 it runs over an edge. */
  readonly off: number;
  readonly slant: number;
  readonly feather: readonly [number, number];
  /** Wander of the outline. */
  readonly rough: number;
}

const outlines = ['egg', 'slab', 'bean', 'wedge', 'lens'] as const;

/** Draws an outline: no gears were run for it. */
export function drawContact(random: Random, tooth: Tooth, manner: ContactManner): Contact {
  const kind = pick(random, outlines);
  const [half, tall] = [random.uniform(...manner.length) / 2, random.uniform(...manner.tall) / 2];
  const heel0 = random.uniform(-1, 1) * manner.off * (0.5 - half);
  const crown0 = random.uniform(-1, 1) * manner.off * (0.5 - tall);
  const slant = (random.uniform(-1, 1) * manner.slant * tooth.height) / tooth.face;
  const worn = ripple(random, 6, 3);
  const power = kind === 'slab' ? random.uniform(2.6, 4) : random.uniform(1.7, 2.3);
  const bend = kind === 'bean' ? random.uniform(-0.35, 0.35) : 0;
  const grow = kind === 'wedge' ? random.uniform(-0.5, 0.5) : 0;
  const near: Nearness = (heel, crown) => {
    const x = (heel - heel0) / half;
    const stretch = Math.max(0.3, 1 + grow * Math.max(-1.2, Math.min(1.2, x)));
    const rise = (slant * (heel - heel0) * tooth.face) / tooth.height;
    const y = (crown - crown0 - rise - bend * tall * (x * x - 0.4)) / (tall * stretch);
    const far =
      kind === 'lens'
        ? Math.hypot(x, y) + 0.12 * Math.abs(y)
        : (Math.abs(x) ** power + Math.abs(y) ** power) ** (1 / power);
    return far * (1 + manner.rough * worn(heel, crown));
  };
  const feather = random.uniform(...manner.feather);
  return { near, left: (heel, crown) => eased((near(heel, crown) - 1) / feather) };
}

/** Compound without a mark, and compound wiped about. */
export const untouched: Contact = { near: () => 9, left: () => 1 };
export function smears(random: Random): Contact {
  const wiped = [ripple(random, 4, 3), ripple(random, 8, 2)] as const;
  const near: Nearness = (heel, crown) => 1 + 0.9 * wiped[0](heel, crown) + 0.6 * wiped[1](heel, crown);
  return { near, left: (heel, crown) => eased((near(heel, crown) - 1) / 0.5) };
}

type EdgeState = 'clear' | 'feathered' | 'hard';
export const edgeNames = ['toe', 'heel', 'crown', 'root'] as const;
export type EdgeName = (typeof edgeNames)[number];

/** What is true of a mark. */
export interface TrueMark {
  readonly heel: number;
  readonly crown: number;
  readonly area: number;
  readonly edges: Readonly<Record<EdgeName, EdgeState>>;
  /** Edges at which a hair more or less of the mark would change whether it touches: no eye can be held to them. */
  readonly onTheLine: readonly EdgeName[];
}

/** Area and centre by counting places, each with its share of the flank; edges by how much film is left on them. */
export function truthOf(contact: Contact, tooth: Tooth): TrueMark {
  const [across, up] = [240, 96];
  let [whole, area, heelSum, crownSum] = [0, 0, 0, 0];
  for (let i = 0; i < across; i += 1) {
    const heel = (i + 0.5) / across - 0.5;
    const weight = heightAt(tooth, heel);
    for (let j = 0; j < up; j += 1) {
      const crown = (j + 0.5) / up - 0.5;
      whole += weight;
      if (contact.near(heel, crown) >= 1) continue;
      area += weight;
      heelSum += weight * heel;
      crownSum += weight * crown;
    }
  }
  const states = edgeNames.map((edge) => [edge, edgeState(contact, tooth, edge)] as const);
  return {
    heel: heelSum / area,
    crown: crownSum / area,
    area: area / whole,
    edges: {
      toe: states[0]?.[1].state ?? 'clear',
      heel: states[1]?.[1].state ?? 'clear',
      crown: states[2]?.[1].state ?? 'clear',
      root: states[3]?.[1].state ?? 'clear',
    },
    onTheLine: states.flatMap(([edge, { close }]) => (close ? [edge] : [])),
  };
}

/** A touch shorter than this is not seen, and an edge is not known better than that, mm. Own choice. */
const [seen, known] = [0.5, 0.25];
/** Film left below which the eye sees a line and not a fading. Own choice. */
const line = 0.25;

function edgeState(
  contact: Contact,
  tooth: Tooth,
  edge: EdgeName,
): { readonly state: EdgeState; readonly close: boolean } {
  const alongFace = edge === 'crown' || edge === 'root';
  const end = edge === 'toe' || edge === 'root' ? -0.5 : 0.5;
  const length = alongFace ? tooth.face : heightAt(tooth, end);
  const depth = alongFace ? tooth.height : tooth.face;
  const leastAt = (inward: number, counts: number): number => {
    const place = end - (Math.sign(end) * inward) / depth;
    const steps = Math.ceil(length / 0.1);
    const left = Array.from({ length: steps + 1 }, (_, n) =>
      alongFace ? contact.left(n / steps - 0.5, place) : contact.left(place, n / steps - 0.5),
    ).toSorted((a, b) => a - b);
    return left[Math.min(steps, Math.ceil((counts / length) * steps))] ?? 1;
  };
  const least = leastAt(0, seen);
  const state = least >= 0.5 ? 'clear' : least < line ? 'hard' : 'feathered';
  const close =
    leastAt(known, seen) < 0.5 !== leastAt(-known, seen) < 0.5 || leastAt(0, 0.1) < 0.5 !== leastAt(0, 3 * seen) < 0.5;
  return { state, close };
}

/** Lumps, streaks and thin places of a film. */
export interface FilmManner {
  readonly patchy: number;
  readonly streaky: number;
  /** How well the usual film hides the metal. */
  readonly hiding: readonly [number, number];
  /** Share of the film that stays in the mark. */
  readonly residue: readonly [number, number];
}

/** Thickness of the film as it was laid, in usual films, and its share left in the mark. */
export interface Brushed {
  laid(heel: number, crown: number): number;
  stays(heel: number, crown: number): number;
  readonly hiding: number;
}

export function drawFilm(random: Random, manner: FilmManner): Brushed {
  const lumps: Ripple = ripple(random, 4, 2);
  const bristles = ripple(random, 1.2, 16);
  const slid = ripple(random, 14, 1.5);
  const residue = random.uniform(...manner.residue);
  return {
    laid: (heel, crown) =>
      Math.max(0.12, 1 + manner.patchy * lumps(heel, crown) + manner.streaky * bristles(heel, crown)),
    stays: (heel, crown) => residue * Math.max(0, 1 + slid(heel, crown)),
    hiding: random.uniform(...manner.hiding),
  };
}
