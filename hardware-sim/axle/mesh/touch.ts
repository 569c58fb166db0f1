import type { Field } from './contact.ts';

/** Lowest value of the parabola through three evenly spaced ones, the middle one smallest. */
function lowest(before: number, middle: number, after: number): number {
  const bend = before - 2 * middle + after;
  // Beyond an edge there is nothing to draw a parabola through.
  return bend > 0 && Number.isFinite(bend) ? middle - (after - before) ** 2 / (8 * bend) : middle;
}

/** Smallest of evenly spaced values, refined between them. */
function smallest(count: number, at: (n: number) => number): number {
  let best = 0;
  let value = Infinity;
  for (let n = 0; n < count; n += 1) {
    const here = at(n);
    if (here < value) [best, value] = [n, here];
  }
  return best === 0 || best === count - 1 ? value : lowest(at(best - 1), value, at(best + 1));
}

/** A flank ready to say at which angle it is stopped at any roll. */
export interface Touch {
  readonly field: Field;
  /** Whether there is metal on both gears at a place. */
  readonly meets: Uint8Array;
  /** Angle at which this tooth alone is stopped at a roll, rad. */
  readonly at: (roll: number) => number;
}

/**
 * Finds first touch: the smallest stop angle over all places. Contact lines run along the tooth, so the valley of stop
 * angles is first crossed up the flank, column by column, and then followed along the face.
 */
export function touchOf(field: Field, pinionTipEnds: boolean): Touch {
  const { level, roll, bend, aboveTip } = field;
  const [across, up] = [field.heels.length, field.crowns.length];
  const meets = Uint8Array.from(aboveTip, (height) => (pinionTipEnds && height > 0 ? 0 : 1));
  const stop = (place: number, now: number): number => {
    if (meets[place] === 0) return Infinity;
    const rest = now - (roll[place] as number);
    return (level[place] as number) + 0.5 * (bend[place] as number) * rest * rest;
  };
  const at = (now: number): number => {
    const columns = Float64Array.from({ length: across }, (_, i) => smallest(up, (j) => stop(j * across + i, now)));
    return smallest(across, (i) => columns[i] as number);
  };
  return { field, meets, at };
}

/** The stretch of roll, one ring-gear pitch long, over which one tooth and not its neighbours carries the contact. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

const SAMPLES = 25;

/** Where the neighbours take over: the tooth behind and the tooth before are stopped at the same angle as this one. */
export function carryingStretch(touch: Touch, pitch: number): Stretch {
  const rolls = Array.from({ length: SAMPLES }, (_, i) => ((i - (SAMPLES - 1) / 2) * 2.5 * pitch) / (SAMPLES - 1));
  const [first] = rolls.map((roll) => [touch.at(roll), roll] as const).sort((a, b) => a[0] - b[0]);
  const peak = first?.[1] ?? 0;
  let [low, high] = [peak - pitch, peak];
  for (let halving = 0; halving < 14; halving += 1) {
    const middle = (low + high) / 2;
    if (touch.at(middle) > touch.at(middle + pitch)) low = middle;
    else high = middle;
  }
  return { from: low, to: low + pitch };
}

/** Mean stop angle of the flank over one pitch, this tooth carrying: what a tooth rocked anywhere finds on average. */
export function meanTouch(touch: Touch, stretch: Stretch): number {
  const samples = 12;
  const step = (stretch.to - stretch.from) / samples;
  const values = Array.from({ length: samples }, (_, i) => touch.at(stretch.from + (i + 0.5) * step));
  return values.reduce((sum, value) => sum + value, 0) / samples;
}
