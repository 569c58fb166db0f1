import type { LineReading } from './gaugeReading.ts';

/** Lines further apart than this say nothing about each other: a hand may have moved the spindle anywhere. */
const neighbours_s = 0.3;
/** Steps of the display by which a number may differ from where the movement would have brought it. */
const counts = 3;
/** A hand slows down and speeds up, and a line may be missing between: the movement is known to twice itself. */
const uneven = 2;
/** Only what jumps by clearly more than that is suspected. */
const clearly = 2;
const longestRun = 3;
const mostPowers = 30;

interface TornWatch {
  /** True when the number looks like the one that was due, with a sign or digits lost or added on the way. */
  readonly looks: (line: LineReading, t_s: number) => boolean;
  readonly saw: (line: LineReading, t_s: number) => void;
}

/**
 * A line of free width that lost or gained a byte is a good line with another number: 12.345 becomes 2.345 or 1.345 or
 * 112.345, -0.237 becomes 0.237. Only its neighbours tell: they say where the spindle was due, and no spindle jumps from there to
 * just the place the torn number names.
 */
export function tornWatch(): TornWatch {
  let before: { readonly line: LineReading; readonly t_s: number; readonly step: number } | undefined;
  const isNeighbour = (t_s: number): boolean => before !== undefined && t_s - before.t_s <= neighbours_s;
  return {
    looks: (line, t_s) => {
      if (before === undefined || !isNeighbour(t_s)) return false;
      const due = before.line.value + before.step;
      const flicker = counts * Math.min(displayStep(line), displayStep(before.line));
      const near = uneven * Math.abs(before.step) + flicker;
      if (Math.abs(line.value - due) <= clearly * (near + flicker)) return false;
      const turned = line.value < 0 !== due < 0;
      if (turned && (line.sign !== '' || before.line.sign !== '-')) return false;
      if (turned && Math.abs(line.value + due) <= near) return true;
      const sizes = { shown: Math.abs(line.value), due: Math.abs(due), near };
      if (line.exponent) return otherPower(sizes);
      return digitsLost(sizes) || (!turned && digitsAdded(sizes));
    },
    saw: (line, t_s) => {
      const step = before !== undefined && isNeighbour(t_s) ? line.value - before.line.value : 0;
      before = { line, t_s, step };
    },
  };
}

/** Of a number with an exponent the last digit written says this much. */
function displayStep({ value, decimals, exponent }: LineReading): number {
  if (!exponent) return 10 ** -decimals;
  return 10 ** (Math.floor(Math.log10(Math.abs(value) || 1)) - decimals);
}

interface Sizes {
  readonly shown: number;
  readonly due: number;
  readonly near: number;
}

/** An exponent that lost a digit or its sign: the number is off by a power of ten. */
function otherPower({ shown, due, near }: Sizes): boolean {
  if (due <= near) return false;
  const power = Math.round(Math.log10(shown / due));
  return power !== 0 && Math.abs(power) <= mostPowers && Math.abs(shown / 10 ** power - due) <= near;
}

/** Whether one run of digits before the decimal sign, taken out of what was due, makes what is shown. */
const digitsLost = ({ shown, due, near }: Sizes): boolean =>
  someRun(shown, (at, run) => {
    const bare = Math.floor(shown / 10 ** at) * 10 ** (at + run) + (shown % 10 ** at);
    const digits = Math.round((due - bare) / 10 ** at);
    return Math.abs(bare + Math.min(Math.max(digits, 0), 10 ** run - 1) * 10 ** at - due) <= near;
  });

/** Whether one run of digits, taken out of what is shown, makes what was due. */
const digitsAdded = ({ shown, due, near }: Sizes): boolean =>
  someRun(shown, (at, run) => {
    const without = Math.floor(shown / 10 ** (at + run)) * 10 ** at + (shown % 10 ** at);
    return without !== shown && Math.abs(without - due) <= near;
  });

/** Tries runs of so many digits, ending so many places before the decimal sign. */
function someRun(shown: number, fits: (at: number, run: number) => boolean): boolean {
  for (let run = 1; run <= longestRun; run += 1) {
    for (let at = 0; 10 ** at <= 10 * Math.max(shown, 1); at += 1) if (fits(at, run)) return true;
  }
  return false;
}
