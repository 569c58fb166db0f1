import type { Random } from '../../seeded.ts';
import { type Shown, shownBy, type WorldAxle } from './axle.ts';
import type { Painted } from './paint.ts';
import type { Population } from './population.ts';

export const edgeOrder = ['toe', 'heel', 'crown', 'root'] as const;
export type EdgeSeen = 'clear' | 'feathered' | 'hard';

/** A mark as somebody wrote it down. */
export interface MarkRead {
  readonly heel: number;
  readonly crown: number;
  readonly length: number;
  readonly height: number;
  readonly edges: readonly EdgeSeen[];
}

/** One trial as it stands in the notebook. */
export interface TrialRead {
  readonly pinionOut: number;
  readonly ringAway: number;
  /** Mean over the stations; 0 where the gears bind. */
  readonly backlash: number;
  readonly drive: MarkRead;
  readonly coast: MarkRead;
}

/** How unsure an eye is of how much film is left at an edge, as a share of it. */
export const edgeSpread = 0.1;
/** Film left at an edge (share of it) at which hard becomes feathered and feathered clear. */
export const edgeLimits = { hard: 0.5, clear: 1 } as const;

export function readTrial(
  random: Random,
  population: Population,
  axle: WorldAxle,
  at: { readonly pinionOut: number; readonly ringAway: number; readonly trial: number },
): TrialRead {
  const shown = shownBy(axle, at.pinionOut, at.ringAway, at.trial);
  return { pinionOut: at.pinionOut, ringAway: at.ringAway, ...readShown(random, population, shown) };
}

const kept = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

function readShown(random: Random, { reading, backlashReading }: Population, shown: Shown) {
  const mark = (painted: Painted): MarkRead => ({
    heel: kept(random.normal(painted.heel, reading), -0.5, 0.5),
    crown: kept(random.normal(painted.crown, reading), -0.5, 0.5),
    length: kept(random.normal(painted.length, reading), 0, 1),
    height: kept(random.normal(painted.height, reading), 0, 1),
    edges: painted.edges.map((left) => edgeFrom(random.normal(left, edgeSpread))),
  });
  return {
    backlash: Math.max(0, random.normal(shown.backlash, backlashReading)),
    drive: mark(shown.drive),
    coast: mark(shown.coast),
  };
}

function edgeFrom(left: number): EdgeSeen {
  if (left < edgeLimits.hard) return 'hard';
  return left < edgeLimits.clear ? 'feathered' : 'clear';
}
