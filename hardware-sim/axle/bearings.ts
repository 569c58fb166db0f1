/** What turns hard in an axle, as torques of steady turning. */
export interface BearingSpec {
  /** Pinion bearings without preload, N·m, and what a millimetre of preload adds (common practice: some 0.8 N·m for 0.025 mm). */
  readonly pinionFree_Nm: number;
  readonly pinionPerPreload_Nm_per_mm: number;
  /** The same for the case bearings, N·m at the case. */
  readonly caseFree_Nm: number;
  readonly casePerPreload_Nm_per_mm: number;
  readonly seal_Nm: number;
  /** Sliding of the teeth over each other without load, N·m at the pinion. */
  readonly mesh_Nm: number;
  /** Part of the drag that comes and goes once a turn. */
  readonly ripple: number;
  /** Crush at which a new sleeve first lets the bearings touch, mm. */
  readonly sleeveFirstTouch_mm: number;
  /** What one turn of the pinion nut crushes a sleeve by: the pitch of its thread, mm. */
  readonly nutPitch_mm: number;
  /** Preload shim behind a solid spacer at which the bearings just touch, mm. */
  readonly spacerFirstTouch_mm: number;
}

/** Which bearings are in: slip-fit ones for trials, new ones, or those that have run. */
type Bearings = 'set-up' | 'new' | 'used';

/** How the pinion's preload is set; without sleeve or spacer the nut is drawn up to a light drag by hand. */
export interface PinionSetting {
  readonly bearings: Bearings;
  readonly seal: boolean;
  readonly sleeve?: { readonly crush_mm: number };
  readonly spacer?: { readonly shim_mm: number };
  readonly nutDrag_Nm?: number;
}

/** Run-in races drag about half as much as new ones at the same preload (common practice). */
const RACE = { 'set-up': 0.8, new: 1, used: 0.5 } as const;

/** Starting over steady turning; a seal sticks a little more (1.2–2 remembered as usual). */
const BREAKAWAY = { 'set-up': 1.25, new: 1.5, used: 1.3 } as const;
const SEAL_STICKS = 0.15;

/** A light drag by hand, N·m: what a trial pinion is drawn up to. */
const LIGHT_Nm = 0.7;

/** A nut drawn up until the bearings all but touch, and then turned by this much. */
export const sleeveAfterNut = (spec: BearingSpec, nutTurned_deg: number): { readonly crush_mm: number } => ({
  crush_mm: spec.sleeveFirstTouch_mm - ALL_BUT_mm + (nutTurned_deg / 360) * spec.nutPitch_mm,
});

const ALL_BUT_mm = 0.005;

export const breakawayFactor = (setting: PinionSetting): number =>
  BREAKAWAY[setting.bearings] + (setting.seal ? SEAL_STICKS : 0);

/** Steady drag of the pinion alone, case out, N·m. */
export function pinionDrag(spec: BearingSpec, setting: PinionSetting): number {
  const seal = setting.seal ? spec.seal_Nm : 0;
  const preload = pinionPreload(spec, setting);
  if (preload === undefined) return (setting.nutDrag_Nm ?? LIGHT_Nm) + seal;
  const free = spec.pinionFree_Nm + spec.pinionPerPreload_Nm_per_mm * Math.max(0, preload);
  return free * RACE[setting.bearings] + seal;
}

function pinionPreload(spec: BearingSpec, setting: PinionSetting): number | undefined {
  if (setting.sleeve !== undefined) return setting.sleeve.crush_mm - spec.sleeveFirstTouch_mm;
  // A thinner preload shim lets the nut draw the races closer.
  if (setting.spacer !== undefined) return spec.spacerFirstTouch_mm - setting.spacer.shim_mm;
  return undefined;
}

/** Steady drag of the case in its bearings, N·m at the case. */
export const caseDrag = (spec: BearingSpec, setting: PinionSetting, squeeze_mm: number): number =>
  (spec.caseFree_Nm + spec.casePerPreload_Nm_per_mm * Math.max(0, squeeze_mm)) * RACE[setting.bearings];
