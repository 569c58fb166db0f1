import { drawBlank, type Blank, type BlankSpec } from './blank.ts';
import { pointsOver, type Span } from './chebyshev.ts';
import { layFrame, type FlankFrame } from './flankFrame.ts';
import { carvePinionFlank, lever, meshingRoll, type EaseOff, type PinionFlank } from './pinionFlank.ts';
import { cutRingFlank, type Cut, type FlankName, type RingFlank } from './ringFlank.ts';

/** A gear set to be cut: its drawing, its cutter and what the pinion is relieved by. */
export interface GearSetSpec extends BlankSpec {
  readonly cut: Cut;
  /** Mean of the two flank pressure angles. */
  readonly pressure_rad: number;
  readonly easeOff: { readonly convex: EaseOff; readonly concave: EaseOff };
  /** Free movement along rotation at the heel when the gears sit where they were cut to sit, mm. */
  readonly backlash_mm: number;
  /**
   * Whether contact ends where the pinion's tip cone ends, some way above the visible root of the ring gear. Off by
   * default: then the whole visible flank works, as drawings of contact patterns usually take it.
   */
  readonly pinionTipEnds?: boolean;
}

/** How finely surfaces are tabulated and fields of contact are laid; the defaults are good to some nanometres. */
interface Fineness {
  /** Points along and across the pinion flank's table. */
  readonly pinion: readonly [number, number];
  /** Ring-gear points, along the face and in height, at which the gears are brought together. */
  readonly contact: readonly [number, number];
  /** Places of the painted flank, along the face and in height. */
  readonly paint: readonly [number, number];
}

export const DEFAULT_FINENESS: Fineness = { pinion: [18, 18], contact: [13, 11], paint: [61, 41] };

/** A point of the ring-gear flank, ready to be brought to a pinion. */
export interface RingPoint {
  readonly R: number;
  readonly z: number;
  readonly polar: number;
  /** Distance square to the flank for one radian of ring-gear turn, mm. */
  readonly lever: number;
  /** Roll at which it would meet a pinion sitting where it was cut to sit, rad of ring gear. */
  readonly roll: number;
}

/** Both sides of one mesh: the ring-gear flank with its points, and the pinion flank carved to it. */
export interface FlankPair {
  readonly ring: RingFlank;
  readonly pinion: PinionFlank;
  /** Row by row of height, each row along the face, at Chebyshev points of −0.5…0.5. */
  readonly points: readonly (readonly RingPoint[])[];
}

/** A cut and carved gear set. */
export interface GearSet {
  readonly spec: GearSetSpec;
  readonly blank: Blank;
  readonly frame: FlankFrame;
  readonly fineness: Fineness;
  readonly convex: FlankPair;
  readonly concave: FlankPair;
}

/** The visible flank in fractions of its face width and height. */
export const FLANK: Span = { low: -0.5, high: 0.5 };

/** A ring-gear point at a place given in fractions of the visible flank. */
export function ringPoint(blank: Blank, frame: FlankFrame, ring: RingFlank, heel: number, crown: number): RingPoint {
  const u = heel * frame.faceWidth_mm;
  const [R, z] = frame.toAxial(u, frame.middleAt(u) + crown * frame.heightAt(u));
  return { R, z, polar: ring.polar(R, z), lever: lever(ring, R, z), roll: meshingRoll(blank, ring, R, z) };
}

/** Cuts the ring gear and carves the pinion to it. Some tens of milliseconds. */
export function cutGearSet(spec: GearSetSpec, fineness: Fineness = DEFAULT_FINENESS): GearSet {
  const blank = drawBlank(spec);
  const frame = layFrame(blank, spec.cut);
  const pair = (name: FlankName): FlankPair => {
    const ring = cutRingFlank(blank, spec.cut, spec.pressure_rad, name);
    const pinion = carvePinionFlank(blank, frame, ring, spec.easeOff[name], fineness.pinion);
    const heels = pointsOver(FLANK, fineness.contact[0]);
    const crowns = pointsOver(FLANK, fineness.contact[1]);
    const points = crowns.map((crown) => heels.map((heel) => ringPoint(blank, frame, ring, heel, crown)));
    return { ring, pinion, points };
  };
  return { spec, blank, frame, fineness, convex: pair('convex'), concave: pair('concave') };
}
