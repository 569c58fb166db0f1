import type { PaintedFlank } from './mesh/paint.ts';

/**
 * What an axle on the stand offers to whoever measures it. The simulated gauges see the twin only through
 * this face, as a real gauge sees a real axle only from outside.
 *
 * Angles are those of the ring gear: stations are numbered on the gear itself, clockwise looking at its teeth.
 */

/** How a mark meets one edge of the flank: not at all, fading into it, or cut off with a sharp line. */
export type Edge = 'clear' | 'feathered' | 'hard';

/** The mark that the compound shows on one ring-gear flank (docs/signs-and-units.md): fractions of the face and of the visible height. */
export interface Mark {
  /** Area centroid from mid face, divided by the face width; positive to the heel, −0.5…0.5. */
  readonly heel: number;
  /** Area centroid from mid flank, divided by the visible height; positive to the crown, −0.5…0.5. */
  readonly crown: number;
  /** Full extent along the face, 0…1. */
  readonly length: number;
  /** Full extent in height, 0…1. */
  readonly height: number;
  /** Long axis against the face, degrees; positive when it rises towards the heel. */
  readonly slant_deg: number;
  readonly edges: { readonly toe: Edge; readonly heel: Edge; readonly crown: Edge; readonly root: Edge };
}

/** One assembly of an axle, put together and torqued, ready for gauges and for compound. */
export interface Assembled {
  readonly teeth: { readonly pinion: number; readonly ring: number };
  /**
   * Free movement at the mesh with the pinion held, mm along rotation at the heel radius.
   * @param gearAngle_rad angle of the ring-gear tooth concerned, clockwise looking at the teeth
   */
  backlashAt(gearAngle_rad: number): number;
  readonly heelRadius_mm: number;
  /** Back face, mm axial, towards an indicator fixed in the housing, when the gear has turned this far. */
  backFaceAt(gearAngle_rad: number): number;
  /** Case flange with the ring gear off, mm axial, read the same way. */
  flangeAt(gearAngle_rad: number): number;
  /** Torque to turn the pinion steadily at this pinion angle, case out, N·m. */
  pinionDragAt(pinionAngle_rad: number): number;
  /** Torque to turn the pinion steadily with the case in, N·m at the pinion. */
  totalDragAt(pinionAngle_rad: number): number;
  /** Torque to start turning, divided by the torque to keep turning. */
  readonly breakawayFactor: number;
  /** Axial play of the case in its bearings, mm; 0 once the side shims take it up. */
  readonly endPlay_mm: number;
  /** The mark on both flanks for a film of compound, µm, after rolling both ways by hand. */
  paint(film_um: number): { readonly convex: Mark; readonly concave: Mark };
  /** The same as it lies on each flank, for whoever takes a photo of it. */
  painted(): { readonly convex: PaintedFlank; readonly concave: PaintedFlank };
}
