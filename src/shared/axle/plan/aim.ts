import type { Mark } from '../mark/mark.ts';
import type { PlanInput } from './input.ts';

/** A stretch of places on a flank, or of backlash in mm. */
export type Stretch = readonly [low: number, high: number];

/** Where a mark's centre is wanted. */
export interface Box {
  readonly heel: Stretch;
  readonly crown: Stretch;
}

/** What *right* means for this build (docs/command-line.md). */
export interface Aim {
  readonly drive: Box;
  /** A used set's coast mark has a place of its own; a new one's only has to keep off hard edges. */
  readonly coast: Box | undefined;
  /** Limits of the mean backlash, so that every station is inside the window if the gear varies as it has. */
  readonly backlash: Stretch;
  /** Smallest and largest station, from the mean (mm). */
  readonly below: number;
  readonly above: number;
  /** The backlash a used set ran with. */
  readonly recorded: number | undefined;
}

/** A new set's drive mark: in height the middle, along the face the middle or somewhat to the toe. */
const newSet: Box = { heel: [-0.22, 0.12], crown: [-0.12, 0.12] };

export function aimOf({ target, limits, trials }: PlanInput): Aim {
  const [low, high] = limits.backlash_mm;
  const below = Math.max(...trials.map(({ backlash }) => backlash.mean_mm - backlash.min_mm));
  const above = Math.max(...trials.map(({ backlash }) => backlash.max_mm - backlash.mean_mm));
  const used = target.kind === 'used-set' ? target : undefined;
  return {
    drive: used === undefined ? newSet : around(used.drive),
    coast: used && around(used.coast),
    backlash: [low + below, high - above],
    below,
    above,
    recorded: used?.backlash_mm,
  };
}

/** Within 0.08 in height and 0.10 along the face, or within what reading can tell where that is more. */
function around(mark: Mark): Box {
  const stretch = (middle: number, width: number): Stretch => [middle - width, middle + width];
  return {
    heel: stretch(mark.heel, Math.max(0.1, mark.U95?.heel ?? 0)),
    crown: stretch(mark.crown, Math.max(0.08, mark.U95?.crown ?? 0)),
  };
}

export const inStretch = (value: number, [low, high]: Stretch): boolean => value >= low && value <= high;
