import { heelRadius } from './blank.ts';
import { bringTogether, type Position } from './contact.ts';
import type { GearSet } from './gearSet.ts';
import type { FlankName } from './ringFlank.ts';
import { carryingStretch, meanTouch, touchOf, type Stretch, type Touch } from './touch.ts';

/** One flank in mesh at a position. */
export interface FlankMesh {
  readonly touch: Touch;
  readonly carrying: Stretch;
}

/** Both flanks in mesh at a position. */
export interface Mesh {
  readonly set: GearSet;
  readonly convex: FlankMesh;
  readonly concave: FlankMesh;
  /** Free movement along rotation at the heel, mm: from touch on one flank to touch on the other, the pinion held. */
  readonly backlash_mm: number;
}

/** Brings the gears together at a position. A few milliseconds. */
export function mesh(set: GearSet, at: Position): Mesh {
  const pitch = (2 * Math.PI) / set.spec.ringTeeth;
  const flank = (name: FlankName): FlankMesh => {
    const touch = touchOf(bringTogether(set, set[name], at), set.spec.pinionTipEnds === true);
    return { touch, carrying: carryingStretch(touch, pitch) };
  };
  const [convex, concave] = [flank('convex'), flank('concave')];
  const free = meanTouch(convex.touch, convex.carrying) + meanTouch(concave.touch, concave.carrying);
  return { set, convex, concave, backlash_mm: set.spec.backlash_mm + free * heelRadius(set.blank) };
}
