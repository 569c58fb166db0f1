import type { LineFormat } from './lineFormat.ts';

/** A number as it stands in a line, with the decimals it was written with. */
export interface WrittenNumber {
  readonly value: number;
  readonly decimals: number;
  /** '+' only where it was written. */
  readonly sign: '' | '+' | '-';
  /** How many digits stand before the decimal sign, filling zeros included. */
  readonly digits: number;
  /** Written with an exponent (NR3): its decimals then say nothing about the gauge's resolution. */
  readonly exponent: boolean;
}

export type NumberRules = Pick<LineFormat, 'decimal' | 'impliedDecimals' | 'sign'>;

/**
 * NR1, NR2 and NR3 of IEEE 488.2 (146, -0.123, 1.23E+6), and more liberally ".5", "9.0e2", a decimal comma and
 * blanks between sign and digits. A bare point at the end ("12.") is refused: it is what a cut line looks like.
 */
const grammar = {
  '.': /^([+-]?)[ ]*(\d*)(?:\.(\d+))?(?:[eE]([+-]?\d{1,3}))?$/u,
  ',': /^([+-]?)[ ]*(\d*)(?:,(\d+))?(?:[eE]([+-]?\d{1,3}))?$/u,
  either: /^([+-]?)[ ]*(\d*)(?:[.,](\d+))?(?:[eE]([+-]?\d{1,3}))?$/u,
} as const;

/** From here on SCPI's stand-ins for "not a number" (9.91E37) and infinity (±9.9E37) begin. */
const noNumberFrom = 9.9e37;

/**
 * The number that makes up the whole of `text` under these rules, or undefined. What is written is what is read:
 * the decimal digits go to the nearest number once, with no arithmetic in between.
 */
export function readNumber(text: string, rules: NumberRules): WrittenNumber | undefined {
  const ordered = rules.sign === 'trailing' ? signFirst(text.trim()) : text.trim();
  const found = grammar[rules.decimal].exec(ordered);
  if (found === null) return undefined;
  const [, sign = '', whole = '', decimals = '', exponent] = found;
  if (whole === '' && decimals === '') return undefined;
  if (rules.impliedDecimals !== undefined) return readImplied(sign, whole, found[3] ?? exponent, rules.impliedDecimals);
  const digits = `${whole}${decimals === '' ? '' : `.${decimals}`}`;
  return finite(sign, digits + (exponent === undefined ? '' : `e${exponent}`), decimals.length);
}

/** "0.237-" as "-0.237". A sign in both places is none. */
function signFirst(text: string): string {
  const sign = text.at(-1);
  return sign === '-' || sign === '+' ? sign + text.slice(0, -1).trimEnd() : text;
}

function readImplied(
  sign: string,
  whole: string,
  notDigits: string | undefined,
  places: number,
): WrittenNumber | undefined {
  if (notDigits !== undefined) return undefined;
  const padded = whole.padStart(places + 1, '0');
  const cut = padded.length - places;
  return finite(sign, places === 0 ? padded : `${padded.slice(0, cut)}.${padded.slice(cut)}`, places);
}

function finite(sign: string, digits: string, decimals: number): WrittenNumber | undefined {
  const size = Number(digits);
  if (!(size < noNumberFrom)) return undefined;
  // Minus nothing is nothing: a gauge that shows -0.000 stands at zero.
  const written = sign === '+' || sign === '-' ? sign : '';
  const before = /^\d*/u.exec(digits)?.[0].length ?? 0;
  const exponent = digits.includes('e');
  return { value: sign === '-' && size !== 0 ? -size : size, decimals, sign: written, digits: before, exponent };
}
