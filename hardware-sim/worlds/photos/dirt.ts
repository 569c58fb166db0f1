import type { Random } from '../../seeded.ts';
import type { Nearness } from './contact.ts';
import type { Rgb } from './light.ts';
import { eased, ripple } from './ripple.ts';

/** What lies on teeth in a shop besides compound; each share is of the most that is drawn. */
export interface DirtManner {
  /** Share of the metal that has rusted. */
  readonly rust?: number;
  /** Fingers that touched the wet film beside the mark, and how much of it each took. */
  readonly prints?: { readonly count: number; readonly takes: number };
  /** A second compound left in the brush: how much of it there is in places. */
  readonly second?: number;
  /** Metal polished by the years where the teeth met before, so much brighter than the rest. */
  readonly wear?: number;
}

/** The same at a place of the flank. */
export interface Dirt {
  readonly rust: (heel: number, crown: number) => number;
  /** Share of the film that fingers left. */
  readonly kept: (heel: number, crown: number) => number;
  readonly second: (heel: number, crown: number) => number;
  readonly polish: (heel: number, crown: number) => number;
}

/** Iron oxide, near what it looks like. Invented. */
export const rustColour: Rgb = [0.13, 0.05, 0.022];

const noDirt: Dirt = { rust: () => 0, kept: () => 1, second: () => 0, polish: () => 1 };

/** @param near where the mark is: nobody puts a finger on it, and is asked to read it all the same. */
export function drawDirt(random: Random, manner: DirtManner | undefined, near: Nearness): Dirt {
  if (manner === undefined) return noDirt;
  const [spots, streaks, worn] = [ripple(random, 5, 3), ripple(random, 2, 1.5), ripple(random, 3, 2)];
  const { rust = 0, second = 0, wear = 0 } = manner;
  return {
    rust: (x, y) => eased(2 * (spots(x, y) + 2 * rust - 1)) * Math.min(1, 2 * rust),
    kept: printsOf(random, manner, near),
    second: (x, y) => second * eased(1.5 * streaks(x, y)),
    polish: (x, y) => 1 + wear * eased(3 * (0.55 - Math.hypot(1.6 * (x + 0.05), 1.9 * y) + 0.1 * worn(x, y))),
  };
}

/** Ovals with ridges, laid where no mark is. */
function printsOf(random: Random, { prints }: DirtManner, near: Nearness): Dirt['kept'] {
  if (prints === undefined) return () => 1;
  const fingers = Array.from({ length: prints.count }, () => fingerAside(random, near));
  return (heel, crown) => {
    let kept = 1;
    for (const { x, y, wide, tall, turn } of fingers) {
      const far = Math.hypot((heel - x) / wide, (crown - y) / tall);
      const ridge =
        0.5 + 0.5 * Math.cos(70 * (Math.cos(turn) * (heel - x) + 0.3 * Math.sin(turn) * (crown - y)) + 9 * far);
      kept = Math.min(kept, 1 - prints.takes * eased(4 * (1 - far)) * (0.35 + 0.65 * ridge));
    }
    return kept;
  };
}

function fingerAside(random: Random, near: Nearness) {
  for (let again = 0; ; again += 1) {
    const [x, y] = [random.uniform(-0.45, 0.45), random.uniform(-0.35, 0.5)];
    const finger = {
      x,
      y,
      wide: random.uniform(0.06, 0.12),
      tall: random.uniform(0.2, 0.4),
      turn: random.uniform(0, 3),
    };
    if (near(x, y) > 1.7 || again > 40) return finger;
  }
}
