import type { LineReading } from './gaugeReading.ts';

/**
 * How one gauge writes its numbers, found out from those it has written. Each rule gives a mark for a number that breaks it,
 * and nothing for one that keeps it.
 */
interface WritingRule {
  readonly of: (line: LineReading) => string;
  /** A line that was believed. */
  readonly saw: (line: LineReading) => void;
}

/** Once a gauge has written a plus, a number with no sign at all has lost it, and perhaps more. */
export function plusRule(): Pick<WritingRule, 'of'> {
  let written = false;
  return {
    of: ({ sign }) => {
      written ||= sign === '+';
      return written && sign === '' ? 'no sign' : '';
    },
  };
}

/** Once a gauge has written 0.237, a bare .237 has lost its digits. */
export function noughtRule(): WritingRule {
  let written = false;
  return {
    of: ({ digits, exponent }) => (written && digits === 0 && !exponent ? 'no nought' : ''),
    saw: ({ digits, value }) => {
      written ||= digits > 0 && Math.abs(value) < 1;
    },
  };
}

/** Once a gauge has filled a number up with noughts, 00.237, all its numbers have that many digits. */
export function fillRule(): WritingRule {
  let filledTo: number | undefined;
  return {
    of: ({ digits }) => (filledTo !== undefined && digits !== filledTo ? `${digits} digits` : ''),
    saw: ({ digits, value, exponent }) => {
      const isFilled = !exponent && digits > 1 && Math.abs(value) < 10 ** (digits - 1);
      if (isFilled || filledTo !== undefined) filledTo = digits;
    },
  };
}

interface LengthRule {
  readonly of: (bytes: number) => string;
  readonly saw: (line: LineReading, bytes: number) => void;
}

/** Where numbers of differing width have come in lines of one length, the gauge fills them up: then the length is a rule. */
export function lengthRule(): LengthRule {
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

/** Some gauges drop noughts at the end of a mantissa; one in so many lines shows it. */
const shareOfDropped = 0.05;
const fewestDropped = 3;

/** A mantissa keeps its digits before and behind the point, unless the gauge has shown often enough that its do not. */
export function exponentRule(): Pick<WritingRule, 'of'> {
  let usual: string | undefined;
  let lines = 0;
  let others = 0;
  return {
    of: ({ digits, decimals }) => {
      const shape = `${digits}.${decimals}`;
      usual ??= shape;
      lines += 1;
      if (shape !== usual) others += 1;
      const varies = others >= fewestDropped && others >= shareOfDropped * lines;
      // With no decimals at all the point is gone, and with it the size of the number.
      return varies ? `exponent${decimals === 0 ? ' without decimals' : ''}` : `exponent ${shape}`;
    },
  };
}
