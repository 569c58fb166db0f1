import type { TraceEvent } from './trace.ts';

/** Between which levels a gear rocks: the lower rest, which counts as zero, and how far above it the stem last stood. */
export interface RestLevels {
  readonly zero: number;
  readonly level?: number;
}

/** Rests closer together than this are one side's scatter, not the two sides of the play; in mm. */
const leastPlay_mm = 0.005;

/** The rests found since a moment, as the trace of a rocking gear is drawn from them; nothing before the first rest. */
export function restLevels(events: readonly TraceEvent[], since_s: number): RestLevels | undefined {
  const rests = events.filter(({ kind, t }) => kind === 'rest' && t >= since_s).map(({ v }) => v);
  if (rests.length === 0) return undefined;
  const [low, high] = [Math.min(...rests), Math.max(...rests)];
  const upper = rests.findLast((rest) => rest - low > (high - low) / 2);
  return upper === undefined || high - low < leastPlay_mm ? { zero: low } : { zero: low, level: upper - low };
}
