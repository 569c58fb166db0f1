import { z } from 'zod';

export const cutTypes = ['face-milled', 'face-hobbed', 'not-known'] as const;
export const caseAdjustments = ['outboard-shims', 'inboard-shims', 'threaded-adjusters'] as const;
export const pinionMounts = ['integral', 'caged'] as const;
export const pinionPreloads = ['crush-sleeve', 'solid-spacer'] as const;
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
