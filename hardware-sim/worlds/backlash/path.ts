/** Where the stem is at a time. */
export interface Knot {
  readonly t: number;
  readonly at: number;
}

/** A way through knots that starts and stops gently between each two. Asked for rising times only. */
export function pathThrough(knots: readonly Knot[]): (t_s: number) => number {
  let passed = 0;
  return (t_s) => {
    while (passed + 1 < knots.length && isOver(knots[passed + 1], t_s)) passed += 1;
    const [from, to] = [knots[passed], knots[passed + 1]];
    if (from === undefined) throw new RangeError('a way without a knot');
    if (to === undefined) return from.at;
    const share = Math.min(1, Math.max(0, (t_s - from.t) / (to.t - from.t)));
    return from.at + (to.at - from.at) * share * share * (3 - 2 * share);
  };
}

const isOver = (knot: Knot | undefined, t_s: number): boolean => knot !== undefined && knot.t <= t_s;
