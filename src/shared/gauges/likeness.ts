import type { LineReading, WhyUnreadable } from './gaugeReading.ts';
import { exponentRule, fillRule, lengthRule, noughtRule, plusRule } from './writingRules.ts';
import { tornWatch } from './torn.ts';

/** A gauge may have a few kinds of line (a resolution switched, a state word); more than these is not a pattern. */
const kindsKnown = 8;
/** So many lines alike, one after the other, make a new kind known. */
const runForNew = 3;
/** Where so many lines could not be read and none could, one that can is more likely a piece of such a line. */
const missedToDoubt = 3;

interface Likeness {
  /** True when the line, `length` bytes long and come at `t`, is of a kind this gauge is known to send. */
  readonly fits: (line: LineReading, length: number, t_s: number) => boolean;
  /** A line was no number. */
  readonly missed: (why: WhyUnreadable) => void;
}

/**
 * A byte lost on the way makes 12.345 into 12.45: a number, but not the gauge's. Lines of one gauge are alike in
 * label, unit, decimals, in writing a plus or a nought or not, and in length or digits where it fills its numbers up; and its
 * number does not lose its sign or a digit from one line to the next. A line that differs is held back until the gauge has
 * shown three times running that it means it (its unit or resolution was switched).
 */
export function likenessOfLines(): Likeness {
  const known: string[] = [];
  const plus = plusRule();
  const length = lengthRule();
  const nought = noughtRule();
  const fill = fillRule();
  const exponent = exponentRule();
  const torn = tornWatch();
  let candidate = '';
  let run = 0;
  let missed = 0;
  const learn = (kind: string): void => {
    known.push(kind);
    if (known.length > kindsKnown) known.shift();
  };
  const believed = (line: LineReading, bytes: number, t_s: number): boolean => {
    run = 0;
    length.saw(line, bytes);
    nought.saw(line);
    fill.saw(line);
    torn.saw(line, t_s);
    return true;
  };
  const kindOf = (line: LineReading, bytes: number): string => {
    const decimals = line.exponent ? exponent.of(line) : line.decimals;
    const rules = [plus.of(line), length.of(bytes), nought.of(line), fill.of(line)];
    return [line.label, line.unit, decimals, ...rules].join('|');
  };
  return {
    fits: (line, bytes, t_s) => {
      const kind = kindOf(line, bytes);
      if (known.length === 0 && missed < missedToDoubt) learn(kind);
      const isTorn = torn.looks(line, t_s);
      if (!isTorn && known.includes(kind)) return believed(line, bytes, t_s);
      const now = isTorn ? `${kind}|torn` : kind;
      run = now === candidate ? run + 1 : 1;
      candidate = now;
      if (run < runForNew) return false;
      if (!isTorn) learn(kind);
      return believed(line, bytes, t_s);
    },
    missed: (why) => {
      // What the gauge says of its state, and the other axis of two, are lines as they should be.
      if (why === 'overload' || why === 'gauge-error' || why === 'held' || why === 'other-label') return;
      missed += 1;
      run = 0;
    },
  };
}
