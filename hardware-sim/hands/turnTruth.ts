/** What is true of a surface over one whole turn. */
export interface RunoutTruth {
  /** Largest minus smallest height. */
  readonly tir_mm: number;
  /** Once-per-turn part: its amplitude, and the gear angle at which it stands highest. */
  readonly first: { readonly amplitude_mm: number; readonly highSpot_rad: number };
}

/** What is true of a shaft over whole turns. */
export interface DragTruth {
  readonly running_Nm: number;
  readonly breakaway_Nm: number;
  readonly ripple_Nm: number;
}

// A tenth of a degree: finer than any waviness a surface of the twin has.
const SAMPLES = 3600;
const angles = Array.from({ length: SAMPLES }, (_, index) => (2 * Math.PI * index) / SAMPLES);

const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const spanOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

export function runoutTruth(surfaceAt: (gearAngle_rad: number) => number): RunoutTruth {
  const heights = angles.map(surfaceAt);
  const cosine = 2 * meanOf(heights.map((height, index) => height * Math.cos(angles[index] ?? 0)));
  const sine = 2 * meanOf(heights.map((height, index) => height * Math.sin(angles[index] ?? 0)));
  const highSpot_rad = (Math.atan2(sine, cosine) + 2 * Math.PI) % (2 * Math.PI);
  return { tir_mm: spanOf(heights), first: { amplitude_mm: Math.hypot(cosine, sine), highSpot_rad } };
}

/** Mean and ripple over the turns that will be made, and the peak that starts them. */
export function dragTruth(turn: {
  readonly dragAt: (pinionAngle_rad: number) => number;
  readonly breakawayFactor: number;
  readonly start_rad: number;
  readonly turns: number;
}): DragTruth {
  const whole = Math.max(1, Math.floor(turn.turns));
  const drags = angles.map((angle_rad) => turn.dragAt(turn.start_rad + angle_rad * whole));
  return {
    running_Nm: meanOf(drags),
    breakaway_Nm: turn.dragAt(turn.start_rad) * turn.breakawayFactor,
    ripple_Nm: spanOf(drags),
  };
}
