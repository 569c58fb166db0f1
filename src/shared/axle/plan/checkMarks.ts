import type { Mark } from '../mark/mark.ts';
import { type Side, sides, type TrialSeen } from './input.ts';

/** A direction on the flank, with the edges that cut a mark there. */
export interface Along {
  readonly place: 'crown' | 'heel';
  readonly extent: 'height' | 'length';
  readonly low: 'root' | 'toe';
  readonly high: 'crown' | 'heel';
}
export const upright: Along = { place: 'crown', extent: 'height', low: 'root', high: 'crown' };
export const lying: Along = { place: 'heel', extent: 'length', low: 'toe', high: 'heel' };

const cutAt = (mark: Mark, edge: Along['low' | 'high']): boolean => mark.edges[edge] !== 'clear';
export const whole = (along: Along, mark: Mark): boolean => !cutAt(mark, along.low) && !cutAt(mark, along.high);

/** Half extent (share): of a mark that no edge cuts, else of the larger one and a little more. */
export function halfOf(along: Along, before: Mark, after: Mark): number {
  const uncut = [before, after].find((mark) => whole(along, mark));
  const extent = uncut?.[along.extent] ?? 1.15 * Math.max(before[along.extent], after[along.extent]);
  return Math.min(0.6, Math.max(0.08, extent / 2));
}

/** Where the middle of a mark lies: behind an edge that cuts it, counted from the end that can be seen. */
export function middleOf(along: Along, mark: Mark, half: number): number {
  const [low, high] = [cutAt(mark, along.low), cutAt(mark, along.high)];
  if (low === high) return mark[along.place];
  const visible = mark[along.extent] / 2;
  return low
    ? Math.min(mark[along.place], mark[along.place] + visible - half)
    : Math.max(mark[along.place], mark[along.place] - visible + half);
}

/** Middle of what lies on the flank of a mark about `middle`. */
export function visibleMiddle(middle: number, half: number): number {
  const within = (place: number): number => Math.max(-0.5, Math.min(0.5, place));
  return (within(middle - half) + within(middle + half)) / 2;
}

/**
 * How much sooner both flanks meet because their marks lie off their middle (mm along the rotation at the heel, to first
 * order): a displaced relief touches ahead of its apex, by film × (place/half extent)² each way. A backlash grows by this
 * when marks come back to the middle, whatever the ring gear does.
 */
export function meetsSooner(trial: TrialSeen, other: TrialSeen, film: number): number {
  const one = (side: Side): number =>
    [upright, lying].reduce((sum, along) => {
      const [mark, beside] = [trial.pattern[side], other.pattern[side]];
      const half = Math.max(leastHalf, halfOf(along, mark, beside));
      return sum + leaning(Math.abs(middleOf(along, mark, half))) / half ** 2;
    }, 0);
  return perNormal * film * sides.reduce((sum, side) => sum + one(side), 0);
}

/** Half extents smaller than this are what an edge has left of a mark (share). */
const leastHalf = 0.2;
/**
 * Movement at the heel for each mm square to a flank is about 1.5; rolled marks are larger than the ellipse the formula
 * stands for, and the reliefs turn the touch aside: over twin and first-order world 0.5 to 0.7 of it is found.
 */
const perNormal = 0.95;

/** Beyond the edge (0.5) the touch stays at the edge. */
const leaning = (place: number): number => (place <= 0.5 ? place * place : place - 0.25);
