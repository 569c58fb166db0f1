import type { LineReading } from './gauge-reading.ts';
import { tornWatch } from './torn.ts';

/** A gauge may have a few kinds of line (a resolution switched, a state word); more than these is not a pattern. */
const kindsKnown = 8;
/** So many lines alike, one after the other, make a new kind known. */
const runForNew = 3;

export interface Likeness {
  /** True when the line, `length` bytes long and come at `t`, is of a kind this gauge is known to send. */
  readonly fits: (line: LineReading, length: number, t_s: number) => boolean;
}

/**
 * A byte lost on the way makes 12.345 into 12.45: a number, but not the gauge's. Lines of one gauge are alike in
 * label, unit, decimals, in writing a plus or not, and in length where it fills its numbers up; and its number does not
 * lose its sign or first digit from one line to the next. A line that differs is held back until the gauge has
 * shown three times running that it means it (its unit or resolution was switched).
 */
export function likenessOfLines(): Likeness {
  const known: string[] = [];
  const plus = plusRule();
  const length = lengthRule();
  const torn = tornWatch();
  let candidate = '';
  let run = 0;
  const learn = (kind: string): void => {
    known.push(kind);
    if (known.length > kindsKnown) known.shift();
  };
  const believed = (line: LineReading, bytes: number, t_s: number): boolean => {
    run = 0;
    length.saw(line, bytes);
    torn.saw(line, t_s);
    return true;
  };
  return {
    fits: (line, bytes, t_s) => {
      const decimals = line.exponent ? 'exponent' : line.decimals;
      const kind = [line.label, line.unit, decimals, plus.of(line), length.of(bytes)].join('|');
      if (known.length === 0) learn(kind);
      const isTorn = torn.looks(line, t_s);
      if (!isTorn && known.includes(kind)) return believed(line, bytes, t_s);
      const now = isTorn ? `${kind}|torn` : kind;
      run = now === candidate ? run + 1 : 1;
      candidate = now;
      if (run < runForNew) return false;
      if (!isTorn) learn(kind);
      return believed(line, bytes, t_s);
    },
  };
}

/** Once a gauge has written a plus, a number with no sign at all has lost it, and perhaps more. */
function plusRule(): { readonly of: (line: LineReading) => string } {
  let written = false;
  return {
    of: ({ sign }) => {
      written ||= sign === '+';
      return written && sign === '' ? 'no sign' : '';
    },
  };
}

interface LengthRule {
  readonly of: (bytes: number) => string;
  readonly saw: (line: LineReading, bytes: number) => void;
}

/** Where numbers of differing width have come in lines of one length, the gauge fills them up: then the length is a rule. */
function lengthRule(): LengthRule {
  const widths = new Set<number>();
  let usual: number | undefined;
  const isRule = (): boolean => widths.size > 1;
  return {
    of: (bytes) => (isRule() && bytes !== usual ? `${bytes} long` : ''),
    saw: (line, bytes) => {
      if (bytes !== usual) widths.clear();
      usual = bytes;
      widths.add(line.digits + line.sign.length);
    },
  };
}
