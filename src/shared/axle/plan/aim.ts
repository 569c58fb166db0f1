import type { Mark } from '../mark/mark.ts';
import { type Box, newSetRight, type Stretch, usedSetNear } from '../mark/right.ts';
import type { PlanInput, Side } from './input.ts';
import { placeOf } from './reading.ts';
import type { Place } from './sight.ts';

export type { Box, Stretch } from '../mark/right.ts';

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
  /** Where the last trial stood and where its marks were read: what the model says of a way from there grows less sure with it. */
  readonly from: { readonly place: Place } & Readonly<Record<Side, { readonly heel: number; readonly crown: number }>>;
  /** The backlash a used set ran with. */
  readonly recorded: number | undefined;
}

export function aimOf({ target, limits, trials }: PlanInput): Aim {
  const [low, high] = limits.backlash_mm;
  const below = Math.max(...trials.map(({ backlash }) => backlash.mean_mm - backlash.min_mm));
  const above = Math.max(...trials.map(({ backlash }) => backlash.max_mm - backlash.mean_mm));
  const used = target.kind === 'used-set' ? target : undefined;
  return {
    drive: used === undefined ? newSetRight : around(used.drive),
    coast: used && around(used.coast),
    backlash: [low + below, high - above],
    below,
    above,
    from: lastSeen(trials),
    recorded: used?.backlash_mm,
  };
}

function lastSeen(trials: PlanInput['trials']): Aim['from'] {
  const last = trials.at(-1);
  const middle = { heel: 0, crown: 0 };
  if (last === undefined) return { place: { pinionOut: 0, ringAway: 0 }, drive: middle, coast: middle };
  return { place: placeOf(last), drive: last.pattern.drive, coast: last.pattern.coast };
}

/** As near as a used set has to come, or within what reading can tell where that is more. */
function around(mark: Mark): Box {
  const stretch = (middle: number, width: number): Stretch => [middle - width, middle + width];
  return {
    heel: stretch(mark.heel, Math.max(usedSetNear.heel, mark.U95?.heel ?? 0)),
    crown: stretch(mark.crown, Math.max(usedSetNear.crown, mark.U95?.crown ?? 0)),
  };
}

export const inStretch = (value: number, [low, high]: Stretch): boolean => value >= low && value <= high;
