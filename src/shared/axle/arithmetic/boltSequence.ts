/**
 * The order in which the bolts of a ring gear are drawn down: crosswise, each time to the bolt farthest from those that were
 * just tightened, so that the ring gear comes down flat on its flange (common practice; the maker's own order goes first).
 *
 * @param bolts equally spaced, 3 or more.
 * @returns places on the circle, 0 at the top and on clockwise, in the order of tightening; every place once.
 */
export function boltSequence(bolts: number): readonly number[] {
  const left = new Set(Array.from({ length: bolts }, (_, place) => place));
  const order: number[] = [];
  while (left.size > 0) {
    const next = [...left].reduce((best, place) => (better(place, best, order, bolts) ? place : best));
    order.push(next);
    left.delete(next);
  }
  return order;
}

/** Farther from the last bolt first; where that is alike, farther from the one before it, and so on. */
function better(place: number, than: number, done: readonly number[], bolts: number): boolean {
  for (const earlier of done.toReversed()) {
    const gain = apart(place, earlier, bolts) - apart(than, earlier, bolts);
    if (gain !== 0) return gain > 0;
  }
  return false;
}

/** Steps round the circle between two places, the short way. */
export const apart = (a: number, b: number, bolts: number): number => {
  const steps = Math.abs(a - b) % bolts;
  return Math.min(steps, bolts - steps);
};

/** Shares of the full torque at which all bolts are gone round once (common practice: in three steps). */
export const boltSteps: readonly number[] = [1 / 3, 2 / 3, 1];
