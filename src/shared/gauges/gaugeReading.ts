import type { NoNumber } from '../basics/result.ts';

/** What a line says beside its number. */
export type LineFlag = 'low-battery';

/**
 * Why a line is not a reading. It is journaled with its bytes, counted and shown; it never becomes a number.
 */
export type WhyUnreadable =
  | 'noise'
  | 'no-number'
  | 'several-numbers'
  | 'unknown-unit'
  | 'no-unit'
  | 'other-quantity'
  | 'overload'
  | 'gauge-error'
  | 'held'
  | 'wrong-length'
  | 'wrong-decimals'
  | 'no-start'
  | 'checksum'
  | 'other-label'
  | 'unlike-the-others'
  | 'joined-midway'
  | 'cut-off'
  | 'endless';

/** A line that holds one number, as written there. */
export interface LineReading {
  readonly value: number;
  /** UCUM code, when the line says it or the format fixes it; otherwise the gauge's own unit holds. */
  readonly unit?: string;
  /** The number's decimals as written: part of what makes lines alike. */
  readonly decimals: number;
  /** As written: '' where the line leaves a plus away. */
  readonly sign: '' | '+' | '-';
  /** Digits before the decimal sign as written. */
  readonly digits: number;
  /** Written with an exponent. */
  readonly exponent: boolean;
  /** Words before the number, e.g. `X=`: the other part. */
  readonly label: string;
  readonly flags: readonly LineFlag[];
}

export interface Unreadable {
  readonly why: WhyUnreadable;
}

export const isUnreadable = (line: LineReading | Unreadable): line is Unreadable => 'why' in line;

/** One line of a gauge as it leaves the bench: live to the screens, and with the same `seq` in the journal. */
export interface GaugeReading {
  readonly gauge: string;
  /** Row number in the journal. */
  readonly seq: number;
  /** Monotonic seconds; when the last byte of the line came in. */
  readonly t: number;
  /** Wall-clock milliseconds since 1970 UTC. */
  readonly at: number;
  /** As received, in `unit`; or why the line is no reading. */
  readonly value: number | NoNumber<WhyUnreadable>;
  /** UCUM code; '' when there is no number. */
  readonly unit: string;
  readonly raw: Uint8Array;
  readonly flags: readonly LineFlag[];
}

/** The reason in words for the technician; a word nobody here knows stands as it is. */
export const whyInWords = (why: string): string => (why in whys ? whys[why as WhyUnreadable] : why);

const whys: Record<WhyUnreadable, string> = {
  noise: 'bytes that are no text: wrong baud rate, parity or cable',
  'no-number': 'no number in the line',
  'several-numbers': 'more than one number in the line',
  'unknown-unit': 'a word beside the number that is no unit we know',
  'no-unit': 'no unit in the line, and none set for this gauge',
  'other-quantity': 'a unit of another quantity than this gauge measures',
  overload: 'the gauge says it is beyond its range',
  'gauge-error': 'the gauge reports an error',
  held: 'a value the gauge holds, and not what it reads now: switch hold, maximum or minimum off',
  'wrong-length': 'longer or shorter than the line format says',
  'wrong-decimals': 'more or fewer decimals than the line format says',
  'no-start': 'the start mark of the line is missing',
  checksum: 'the check characters do not fit the line',
  'other-label': 'a line with another label',
  'unlike-the-others': 'unlike the lines before it: bytes may be missing',
  'joined-midway': 'the line had begun before the link was open',
  'cut-off': 'the line broke off',
  endless: 'no line end in sight',
};
