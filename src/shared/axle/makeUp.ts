import { z } from 'zod';
import { nameSchema } from '../basics/recorded.ts';

const cutTypes = ['face-milled', 'face-hobbed', 'not-known'] as const;
export const caseAdjustments = ['outboard-shims', 'inboard-shims', 'flange-shims', 'threaded-adjusters'] as const;
export const pinionMounts = ['integral', 'caged'] as const;
export const pinionPreloads = ['crush-sleeve', 'solid-spacer'] as const;
export const differentials = ['open', 'limited-slip', 'locker'] as const;
export const shaftHolds = ['flanges', 'clips'] as const;
export const depthShimPlaces = ['under-head-bearing', 'behind-head-cup', 'under-cage'] as const;

/**
 * How this axle is made. The make-up decides which steps, gates and signs apply (see setup/checks.ts);
 * nothing in it is a limit: limits stand on the spec sheet with their source.
 */
export const makeUpSchema = z.strictObject({
  pinionTeeth: z.int().min(3).max(60),
  ringTeeth: z.int().min(10).max(200),
  outerDiameter_mm: z.number().positive().optional(),
  /** Read off the parts where they can be: what is left out is assumed for the plan, and said to be. */
  faceWidth_mm: z.number().positive().max(400).optional(),
  offset_mm: z.number().min(0).max(300).optional(),
  pinionSpiral_deg: z.number().min(0).max(65).optional(),
  pressureAngle_deg: z.number().min(10).max(30).optional(),
  /** Steps in which the pinion and the ring gear can be moved: of shims that are sold, or of one notch. */
  pinionStep_mm: z.number().positive().max(1).optional(),
  ringStep_mm: z.number().positive().max(1).optional(),
  /** Threaded adjusters: what one turn moves, and how many notches make one; together they say what a notch moves. */
  threadPitch_mm: z.number().min(0.5).max(6).optional(),
  notchesPerTurn: z.int().min(4).max(120).optional(),
  /** Bolts of the ring gear, equally spaced: as many positions as it has on its flange. */
  ringBolts: z.int().min(4).max(40).optional(),
  gearSet: z.enum(['new', 'used']),
  cut: z.enum(cutTypes),
  /** Ring-gear flank loaded when the vehicle pulls forward: convex on most axles, concave on standard-cut front axles. */
  driveFlank: z.enum(['convex', 'concave']),
  caseAdjustment: z.enum(caseAdjustments),
  pinionMount: z.enum(pinionMounts),
  pinionPreload: z.enum(pinionPreloads),
  depthShimPlace: z.enum(depthShimPlaces),
  /** Trials usually run on slip-fit set-up bearings; a caged pinion runs them on its final, preloaded bearings. */
  trialBearings: z.enum(['set-up', 'final']),
  /** As typed: what the shop calls this axle, and who made the gears. They say which earlier builds are of the same kind. */
  axleName: nameSchema.optional(),
  gearMaker: nameSchema.optional(),
  /** What lets the two wheels turn at different speeds; absent where nobody said, and then nothing more is asked. */
  differential: z.enum(differentials).optional(),
  /** What holds the axle shafts: flanges or plates at the wheels, or clips inside the case behind the cross pin. */
  shaftsHeldBy: z.enum(shaftHolds).optional(),
});
export type MakeUp = z.infer<typeof makeUpSchema>;

export const shimPlaces = ['pinion-depth', 'pinion-preload', 'ring-side', 'opposite-side'] as const;
export type ShimPlace = (typeof shimPlaces)[number];

/** The places where this axle has shims: adjusters replace side shims, a crush sleeve replaces the preload pack. */
export const shimPlacesOf = (makeUp: MakeUp): readonly ShimPlace[] =>
  shimPlaces.filter((place) => {
    if (place === 'pinion-preload') return makeUp.pinionPreload === 'solid-spacer';
    if (place === 'ring-side' || place === 'opposite-side') return makeUp.caseAdjustment !== 'threaded-adjusters';
    return true;
  });

/**
 * How far one notch of the adjusters moves the ring gear (mm): calibrated on this axle, or by its thread.
 * @returns nothing while nobody knows: then no card may count in notches.
 */
export function notchOf({ ringStep_mm, threadPitch_mm, notchesPerTurn }: MakeUp): number | undefined {
  if (ringStep_mm !== undefined) return ringStep_mm;
  return threadPitch_mm === undefined || notchesPerTurn === undefined ? undefined : threadPitch_mm / notchesPerTurn;
}

/**
 * Which way a thicker side shim moves its bearing: in towards the case behind a cup or under a cone (1), out with a
 * retainer or cover whose flange it lies under (−1). Packs, and the preload they make, follow this sign.
 */
export const sideShimSign = ({ caseAdjustment }: Pick<MakeUp, 'caseAdjustment'>): 1 | -1 =>
  caseAdjustment === 'flange-shims' ? -1 : 1;
