import type { LineReading } from './gauge-reading.ts';

/** A gauge may have a few kinds of line (a resolution switched, an axis label); more than these is not a pattern. */
const kindsKnown = 8;
/** So many lines alike, one after the other, make a new kind known. */
const runForNew = 3;

export interface Likeness {
  /** True when the line is of a kind this gauge is known to send. */
  readonly fits: (line: LineReading) => boolean;
}

/**
 * A byte lost on the way makes 12.345 into 12.45: a number, but not the gauge's. Lines of one gauge are alike in
 * label, unit and decimals, so one that differs is held back until the gauge has shown three times running
 * that it means it (its unit or resolution was switched).
 */
export function likenessOfLines(): Likeness {
  const known: string[] = [];
  let candidate = '';
  let run = 0;
  const learn = (kind: string): void => {
    known.push(kind);
    if (known.length > kindsKnown) known.shift();
  };
  return {
    fits: (line) => {
      const kind = `${line.label}|${line.unit ?? ''}|${line.decimals}`;
      if (known.length === 0) learn(kind);
      if (known.includes(kind)) {
        run = 0;
        return true;
      }
      run = kind === candidate ? run + 1 : 1;
      candidate = kind;
      if (run < runForNew) return false;
      learn(kind);
      return true;
    },
  };
}
