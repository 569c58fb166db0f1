import { createAxle, type Assembly, type Axle, type AxleSpec } from './axle.ts';
import type { EaseOff } from './mesh/pinionFlank.ts';
import type { Shims } from './shims.ts';

const degrees = (value: number): number => (value * Math.PI) / 180;

/** Relieved so that 10 µm of compound shows a mark of somewhat over half the face and two thirds of the height. */
const EASE_OFF: EaseOff = { lengthwise: 4.5e-4, bias: 0, profile: 3.6e-3, apex: { heel: 0, crown: 0 } };

/** An axle of our own invention with round dimensions: face-milled hypoid 13/45, 205 mm, drive flank convex. */
export const DEMO_SPEC: AxleSpec = {
  gears: {
    pinionTeeth: 13,
    ringTeeth: 45,
    outerDiameter_mm: 205,
    faceWidth_mm: 30,
    offset_mm: 28,
    pinionSpiral_rad: degrees(46),
    cutterRadius_mm: 105,
    cut: { kind: 'face-milled', rootTilt_rad: degrees(4.5) },
    pressure_rad: degrees(20),
    easeOff: { convex: EASE_OFF, concave: EASE_OFF },
    backlash_mm: 0.2,
  },
  driveFlank: 'convex',
  fit: { right: { head_mm: 1.5, ringSide_mm: 6.1, otherSide_mm: 6.1 }, zeroPlay_mm: 12 },
  fitScatter_mm: { head: 0.006, side: 0.004 },
  apexScatter: { heel: 0.01, crown: 0.01 },
  flange: {
    tilt: { amplitude_mm: 0.008, highSpot_rad: degrees(40) },
    warp: { amplitude_mm: 0.001, highSpot_rad: degrees(10) },
  },
  backFace: {
    tilt: { amplitude_mm: 0.007, highSpot_rad: degrees(90) },
    warp: { amplitude_mm: 0.003, highSpot_rad: degrees(150) },
    burr: { height_mm: 0.004, at_rad: degrees(250), width_rad: degrees(3) },
  },
  backFaceRadius_mm: 92,
  backFaceFromMesh_rad: 0,
  gearCut: { once: { amplitude_mm: 0.004, highSpot_rad: degrees(200) }, tooth_mm: 0.0012 },
  bearings: {
    pinionFree_Nm: 0.2,
    pinionPerPreload_Nm_per_mm: 30,
    caseFree_Nm: 0.2,
    casePerPreload_Nm_per_mm: 8,
    seal_Nm: 0.35,
    mesh_Nm: 0.05,
    ripple: 0.05,
    sleeveFirstTouch_mm: 0.3,
    nutPitch_mm: 1.5,
    spacerFirstTouch_mm: 0.5,
  },
};

/**
 * First trial: the head pack is 0.3 mm too thick and the ring gear 0.05 mm too far away, which hides a part of it.
 * Pinion too deep: mark low and towards the toe with a hard edge at the root, backlash still below its window.
 */
const FIRST: Shims = { head_mm: 1.8, ringSide_mm: 5.95, otherSide_mm: 6.05 };

/** Second trial: 0.1 mm from the ring-gear side to the other side, so that the backlash lies in its window and the teeth can be painted. */
const SECOND: Shims = { head_mm: 1.8, ringSide_mm: 5.85, otherSide_mm: 6.15 };

/** Third trial, right: 0.3 mm less under the head, and the ring gear closer by as much as keeps the backlash. */
const THIRD: Shims = { head_mm: 1.5, ringSide_mm: 6, otherSide_mm: 6 };

/** The story of one build on the demo axle, by its phases. */
export interface DemoAxle extends Axle {
  readonly asFound: Assembly;
  readonly firstTrial: Assembly;
  readonly secondTrial: Assembly;
  readonly thirdTrial: Assembly;
  readonly final: Assembly;
}

/** The demo axle, the same in kind and another in its small errors for each seed. */
export function demoAxle(seed: number): DemoAxle {
  const trial = { bearings: 'set-up', seal: false } as const;
  return {
    ...createAxle(DEMO_SPEC, seed),
    // Run for years: the case has 0.04 mm end play and lets the ring gear away, the drag is low, the teeth are worn.
    asFound: {
      shims: { head_mm: 1.5, ringSide_mm: 6.1, otherSide_mm: 6.1 },
      bearings: 'used',
      seal: true,
      sleeve: { crush_mm: 0.31 },
      caseWear_mm: 0.24,
      toothWear_mm: 0.03,
    },
    firstTrial: { ...trial, shims: FIRST },
    secondTrial: { ...trial, shims: SECOND },
    thirdTrial: { ...trial, shims: THIRD },
    // 0.1 mm more on each side preloads the case without moving the ring gear.
    final: {
      shims: { head_mm: 1.5, ringSide_mm: 6.1, otherSide_mm: 6.1 },
      bearings: 'new',
      seal: true,
      sleeve: { crush_mm: 0.36 },
    },
  };
}
