/**
 * How far a turning face leaves its plane, mm, against the angle on the gear: tilt (once a turn), warp (twice a turn)
 * and a burr that stands up at one place.
 */
export interface Wobble {
  /** Half the full indicator movement of the tilt, mm, and the angle of its high spot. */
  readonly tilt: Wave;
  readonly warp: Wave;
  readonly burr?: { readonly height_mm: number; readonly at_rad: number; readonly width_rad: number };
}

/** A wave round the gear, highest at `highSpot_rad`. */
export interface Wave {
  readonly amplitude_mm: number;
  readonly highSpot_rad: number;
}

/** Height of a wave of so many lobes at an angle, mm. */
export const waveAt = (wave: Wave, lobes: number, angle_rad: number): number =>
  wave.amplitude_mm * Math.cos(lobes * (angle_rad - wave.highSpot_rad));

/** Tilt and warp alone: what a whole gear follows; a burr beside the seat moves no tooth. */
export const bodyAt = (wobble: Wobble, angle_rad: number): number =>
  waveAt(wobble.tilt, 1, angle_rad) + waveAt(wobble.warp, 2, angle_rad);

/** What an indicator on the face feels, mm. */
export function surfaceAt(wobble: Wobble, angle_rad: number): number {
  const { burr } = wobble;
  if (burr === undefined) return bodyAt(wobble, angle_rad);
  const away = Math.atan2(Math.sin(angle_rad - burr.at_rad), Math.cos(angle_rad - burr.at_rad));
  return bodyAt(wobble, angle_rad) + burr.height_mm * Math.exp(-((away / burr.width_rad) ** 2));
}
