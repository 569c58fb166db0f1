import type { Blank } from './blank.ts';
import type { Cut } from './ringFlank.ts';

/**
 * Places on the visible ring-gear flank. `u` mm from mid face along the pitch cone, to the heel; `v` mm from the pitch
 * line square to the cone, to the crown; `heel` and `crown` the same as fractions −0.5…0.5 of the face width and of the
 * visible height there.
 */
export interface FlankFrame {
  readonly faceWidth_mm: number;
  /** Height of the visible flank at mid face, mm. */
  readonly height_mm: number;
  heightAt(u: number): number;
  /** v of the middle of the visible flank, mm. */
  middleAt(u: number): number;
  /** v of the tip, mm. */
  tipAt(u: number): number;
  /** Distance from the ring-gear axis and height along it, mm. */
  toAxial(u: number, v: number): readonly [number, number];
  fromAxial(R: number, z: number): readonly [number, number];
  /** Outward height of a pinion place above its tip cone, mm: negative where the pinion has metal. */
  abovePinionTip(U: number, V: number): number;
  toPinion(U: number, V: number): readonly [number, number];
  fromPinion(x: number, rho: number): readonly [number, number];
}

/** Visible height over working depth: a little of the flank below the pinion's reach shows above the fillet. */
const VISIBLE = 1.05;

/**
 * Lays the flank frame on a blank. On a tapered tooth (root tilt) tip and root run apart towards the heel: the root by
 * the tilt, the tip by its share of the depth.
 */
export function layFrame(blank: Blank, cut: Cut): FlankFrame {
  const rootSlope = cut.kind === 'face-milled' ? Math.tan(cut.rootTilt_rad) : 0;
  const depth = blank.workingDepth_mm;
  const tip = blank.ringAddendum_mm;
  const tipSlope = (rootSlope * tip) / (depth - tip);
  const root = tip - VISIBLE * depth;
  const [sin2, cos2] = [Math.sin(blank.ringPitch_rad), Math.cos(blank.ringPitch_rad)];
  const [sin1, cos1] = [Math.sin(blank.pinionPitch_rad), Math.cos(blank.pinionPitch_rad)];
  const [R0, z0] = [blank.ringMeanRadius_mm, blank.mean[2]];
  const [x0, rho0] = [blank.mean[0], blank.pinionMeanRadius_mm];
  const heightAt = (u: number) => tip - root + u * (tipSlope + rootSlope);
  const tipAt = (u: number) => tip + u * tipSlope;
  return {
    faceWidth_mm: blank.spec.faceWidth_mm,
    height_mm: heightAt(0),
    heightAt,
    tipAt,
    middleAt: (u) => tipAt(u) - heightAt(u) / 2,
    toAxial: (u, v) => [R0 + u * sin2 + v * cos2, z0 + u * cos2 - v * sin2],
    fromAxial: (R, z) => [(R - R0) * sin2 + (z - z0) * cos2, (R - R0) * cos2 - (z - z0) * sin2],
    // The pinion's tip follows the ring gear's root line.
    abovePinionTip: (U, V) => V - (depth - tip) - U * rootSlope,
    toPinion: (U, V) => [x0 + U * cos1 - V * sin1, rho0 + U * sin1 + V * cos1],
    fromPinion: (x, rho) => [(x - x0) * cos1 + (rho - rho0) * sin1, -(x - x0) * sin1 + (rho - rho0) * cos1],
  };
}
