import type { LineReading } from './gauge-reading.ts';

/** Lines further apart than this say nothing about each other: a hand may have moved the spindle anywhere. */
const neighbours_s = 0.3;
/** A mirrored number this close to zero is a gauge going through zero, and hardly wrong if it is not. */
const leastCounts = 10;
/** How near to the torn number the true one must have been: a tenth of what was lost. */
const near = 0.1;

export interface TornWatch {
  /** True when the number looks like the one before it with its sign or its first digits lost. */
  readonly looks: (line: LineReading, t_s: number) => boolean;
  readonly saw: (line: LineReading, t_s: number) => void;
}

/**
 * A line of free width that lost its first byte is a good line with another number: 12.345 becomes 2.345, -0.237 becomes 0.237.
 * Only its neighbour tells: no spindle moves by just ten, or to just its mirrored place, from one line to the next.
 */
export function tornWatch(): TornWatch {
  let before: { readonly line: LineReading; readonly t_s: number } | undefined;
  return {
    looks: (line, t_s) => {
      if (before === undefined || line.exponent || t_s - before.t_s > neighbours_s) return false;
      return lostDigits(before.line, line) || lostSign(before.line, line);
    },
    saw: (line, t_s) => {
      before = { line, t_s };
    },
  };
}

function lostDigits(before: LineReading, line: LineReading): boolean {
  if (line.digits >= before.digits) return false;
  const lost = (Math.abs(before.value) - Math.abs(line.value)) / 10 ** line.digits;
  return Math.round(lost) >= 1 && Math.abs(lost - Math.round(lost)) < near;
}

function lostSign(before: LineReading, line: LineReading): boolean {
  if (before.sign !== '-' || line.sign !== '') return false;
  const size = Math.abs(before.value);
  return size > leastCounts / 10 ** line.decimals && Math.abs(line.value - size) < near * size;
}
