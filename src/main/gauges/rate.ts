const window_s = 1;
const pieces = 10;

interface RateMeter {
  readonly count: (t_s: number) => void;
  /** Counted in the last second. */
  readonly perSecond: (t_s: number) => number;
}

/** Counts in tenths of a second, so that its memory does not grow with the rate. */
export function rateMeter(): RateMeter {
  const counts = Array.from({ length: pieces }, () => 0);
  let newest = 0;
  const forward = (t_s: number): number => {
    const piece = Math.floor((t_s * pieces) / window_s);
    for (let at = Math.max(newest + 1, piece - pieces + 1); at <= piece; at += 1) counts[at % pieces] = 0;
    newest = Math.max(newest, piece);
    return piece % pieces;
  };
  return {
    count: (t_s) => {
      const piece = forward(t_s);
      counts[piece] = (counts[piece] ?? 0) + 1;
    },
    perSecond: (t_s) => {
      forward(t_s);
      return counts.reduce((sum, count) => sum + count, 0) / window_s;
    },
  };
}
