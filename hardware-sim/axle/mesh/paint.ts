import type { FlankFrame } from './flankFrame.ts';
import type { FlankMesh } from './mesh.ts';

/**
 * The gap that each place of a flank came down to while its tooth carried, mm square to the flank; infinite where
 * there is no metal to meet.
 */
export interface PaintedFlank {
  readonly heels: readonly number[];
  readonly crowns: readonly number[];
  readonly gap: Float64Array;
  /** Share of each place's cell that lies on the flank: half on an edge, a quarter in a corner. */
  readonly share: Float64Array;
}

/**
 * Rolls the tooth through its stretch and notes how close each place came. A place is closest when the roll passes its
 * own meeting; one that would meet outside the stretch is as close as the end of the stretch brings it, because there
 * the neighbour takes over and this tooth moves away.
 */
export function rollThroughMesh({ touch, carrying }: FlankMesh): PaintedFlank {
  const { field, meets } = touch;
  const stopAtRoll = touchTable(touch.at, carrying.from, carrying.to);
  const gap = Float64Array.from(field.level, (level, place) => {
    const met = field.roll[place] as number;
    const roll = Math.min(carrying.to, Math.max(carrying.from, met));
    const late = 0.5 * (field.bend[place] as number) * (roll - met) ** 2;
    const angle = level + late - stopAtRoll(roll);
    return meets[place] === 1 ? Math.max(0, angle * (field.lever[place] as number)) : Infinity;
  });
  return { heels: field.heels, crowns: field.crowns, gap, share: shares(field.heels.length, field.crowns.length) };
}

/** First touch against roll, tabulated: it is a smooth shallow curve asked for at every place. */
function touchTable(at: (roll: number) => number, from: number, to: number): (roll: number) => number {
  const steps = 24;
  const values = Float64Array.from({ length: steps + 1 }, (_, i) => at(from + ((to - from) * i) / steps));
  return (roll) => {
    const x = ((roll - from) / (to - from)) * steps;
    const i = Math.min(steps - 1, Math.max(0, Math.floor(x)));
    return (values[i] as number) + (x - i) * ((values[i + 1] as number) - (values[i] as number));
  };
}

function shares(across: number, up: number): Float64Array {
  const half = (i: number, count: number) => (i === 0 || i === count - 1 ? 0.5 : 1);
  return Float64Array.from({ length: across * up }, (_, k) => {
    return half(k % across, across) * half(Math.floor(k / across), up);
  });
}

/** One painted place: where it lies in fractions and in mm of the visible flank, and how much area it carries. */
export interface PaintedPlace {
  readonly heel: number;
  readonly crown: number;
  readonly u_mm: number;
  readonly v_mm: number;
  readonly area: number;
}

/** How much the gap changes from a place to its neighbours, mm: the blur of the paint's edge on this grid. */
function blur(gap: Float64Array, k: number, across: number): number {
  const here = gap[k] as number;
  const differences = [k - 1, k + 1, k - across, k + across].map((other) => Math.abs((gap[other] ?? here) - here));
  return Math.max(1e-6, ...differences.filter(Number.isFinite));
}

/** All places where the film was pressed away, those on the edge of the mark counted in part. */
export function paintedPlaces(flank: PaintedFlank, frame: FlankFrame, film_mm: number): readonly PaintedPlace[] {
  const across = flank.heels.length;
  const places: PaintedPlace[] = [];
  flank.crowns.forEach((crown, j) => {
    flank.heels.forEach((heel, i) => {
      const k = j * across + i;
      const within = (film_mm - (flank.gap[k] as number)) / blur(flank.gap, k, across) + 0.5;
      if (!(within > 0)) return;
      const u = heel * frame.faceWidth_mm;
      const height = frame.heightAt(u);
      const area = Math.min(1, within) * (flank.share[k] as number) * height;
      places.push({ heel, crown, u_mm: u, v_mm: frame.middleAt(u) + crown * height, area });
    });
  });
  return places;
}
