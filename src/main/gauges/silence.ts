/** A gauge that sends by itself sends at least this often; slower ones are asked for, or send at a button. */
const continuousBelow_s = 1;
/** So many gaps have to be seen before we say how often a gauge sends. */
const gapsToKnow = 8;
/** Silence is noticed within one second; the check itself comes every tenth of a second. */
const least_s = 0.7;
const gapsMissed = 6;

export interface SilenceWatch {
  /** Bytes came in at `t`: true when they end a silence. */
  readonly heard: (t_s: number) => boolean;
  /** True once, when a gauge that has been sending by itself has stopped. */
  readonly check: (t_s: number) => boolean;
  /** The link is open anew. */
  readonly opened: (t_s: number) => void;
}

/**
 * Tells a gauge that stopped sending from one that sends only when its button is pressed.
 * @param askedEvery_s given where we ask for readings: then an answer is owed from the beginning.
 */
export function silenceWatch(askedEvery_s?: number): SilenceWatch {
  let last_s = 0;
  let typical_s = askedEvery_s ?? 0;
  let gaps = 0;
  let silent = false;

  const learn = (gap_s: number): void => {
    if (gap_s > continuousBelow_s) {
      gaps = 0;
      return;
    }
    typical_s = gaps === 0 ? gap_s : typical_s + (gap_s - typical_s) / 8;
    gaps += 1;
  };

  return {
    heard: (t_s) => {
      if (askedEvery_s === undefined && !silent) learn(t_s - last_s);
      last_s = t_s;
      const ended = silent;
      silent = false;
      return ended;
    },
    check: (t_s) => {
      const known = askedEvery_s !== undefined || gaps >= gapsToKnow;
      if (silent || !known || t_s - last_s <= Math.max(least_s, gapsMissed * typical_s)) return false;
      silent = true;
      return true;
    },
    opened: (t_s) => {
      last_s = t_s;
      gaps = 0;
      silent = false;
    },
  };
}
