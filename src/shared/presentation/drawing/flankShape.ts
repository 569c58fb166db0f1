import type { Flank } from '../../axle/mark/mark.ts';
import type { Point } from './scene.ts';

/** A place on a flank as docs/signs-and-units.md has it: fractions, heel and crown positive, −0.5…0.5 on the flank. */
export interface FlankPlace {
  readonly heel: number;
  readonly crown: number;
}

/** Which way the tooth is turned on the picture. */
export type Turned = 'toe-left' | 'toe-right';

/**
 * One flank as drawn. The outline is our own simplification of what stands in front of a technician: the
 * height grows towards the heel on a face-milled tooth and stays the same on a face-hobbed one, and the whole
 * flank bows a little, a convex one down (its middle is nearer to whoever looks from above), a concave one up.
 */
export interface FlankGeometry {
  readonly flank: Flank;
  readonly centre: Point;
  /** Drawn face width, toe to heel. */
  readonly length: number;
  /** Drawn height at mid face. */
  readonly height: number;
  /** Height at the heel less height at the toe, as a share of the height at mid face. */
  readonly taper: number;
  /** How far the middle lies below the ends (y down), as a share of the height. */
  readonly bow: number;
  readonly turned: Turned;
}

/** Taper of a face-milled tooth as drawn; about what a 4.5° root tilt does on a face three heights wide (derived). */
const milledTaper = 0.3;
const drawnBow = 0.16;

/** The geometry for a flank of a cut; an unknown cut is drawn face-milled, as docs/mesh-model.md says. */
export function flankGeometry(
  flank: Flank,
  cut: 'face-milled' | 'face-hobbed' | 'not-known',
  turned: Turned,
  place: { readonly centre: Point; readonly length: number; readonly height: number },
): FlankGeometry {
  const taper = cut === 'face-hobbed' ? 0 : milledTaper;
  return { flank, turned, taper, bow: flank === 'convex' ? drawnBow : -drawnBow, ...place };
}

const towardsHeel = (geometry: FlankGeometry): 1 | -1 => (geometry.turned === 'toe-left' ? 1 : -1);

/** Drawn height of the flank at a place along the face. */
export const heightAt = (geometry: FlankGeometry, heel: number): number =>
  geometry.height * (1 + geometry.taper * heel);

/** The y of the middle of the flank's height. The root stays nearer to level, so the taper mostly lifts the crown. */
function middleAt(geometry: FlankGeometry, heel: number): number {
  const bowed = geometry.height * geometry.bow * (0.5 - 4 * heel * heel);
  const lifted = (heightAt(geometry, heel) - geometry.height) * 0.25;
  return geometry.centre.y + bowed - lifted;
}

/** Where a place on the flank is drawn. Also defined beyond the edges. */
export const pointAt = (geometry: FlankGeometry, { heel, crown }: FlankPlace): Point => ({
  x: geometry.centre.x + towardsHeel(geometry) * heel * geometry.length,
  y: middleAt(geometry, heel) - crown * heightAt(geometry, heel),
});

/** The place on the flank under a point of the picture; the exact inverse of {@link pointAt}. */
export function placeAt(geometry: FlankGeometry, { x, y }: Point): FlankPlace {
  const heel = (towardsHeel(geometry) * (x - geometry.centre.x)) / geometry.length;
  return { heel, crown: (middleAt(geometry, heel) - y) / heightAt(geometry, heel) };
}

/** As {@link placeAt}, kept on the flank: for a mark that is dragged. */
export function placeOnFlank(geometry: FlankGeometry, point: Point): FlankPlace {
  const { heel, crown } = placeAt(geometry, point);
  return { heel: onFlank(heel), crown: onFlank(crown) };
}

const onFlank = (fraction: number): number => Math.min(0.5, Math.max(-0.5, fraction));

/** Enough that the bow of a flank shows no corners. */
const levelSteps = 24;

/** Points along a level line of the flank from one place along the face to another. */
export function levelLine(geometry: FlankGeometry, crown: number, from = -0.5, to = 0.5): readonly Point[] {
  return Array.from({ length: levelSteps + 1 }, (_, step) =>
    pointAt(geometry, { heel: from + ((to - from) * step) / levelSteps, crown }),
  );
}

/** The outline of a box of places, as a closed run of points that follows the flank's bow. */
export function patch(
  geometry: FlankGeometry,
  heel: readonly [number, number],
  crown: readonly [number, number],
): readonly Point[] {
  const lower = levelLine(geometry, crown[0], heel[0], heel[1]);
  const upper = levelLine(geometry, crown[1], heel[1], heel[0]);
  return [...lower, ...upper];
}
