import type { LineFormat } from './lineFormat.ts';

export type Status = 'overload' | 'gauge-error' | 'low-battery' | 'held';

/**
 * Words commonly sent in place of or beside a number (common practice; a line format can name others).
 * LB is not among them: "22.1 IN LB" is a torque in inch-pounds, not inches and a low battery.
 */
const usual: ReadonlyMap<string, Status> = new Map([
  ...['OL', 'OVL', 'OVER', 'OVERLOAD', 'OVERRANGE', 'OVERFLOW', 'OFL', 'UL', 'UNDER', 'UNDERRANGE'].map(
    (word) => [word, 'overload'] as const,
  ),
  ...['ERR', 'ERROR', 'FAULT', 'FAIL', 'NAN', 'INF'].map((word) => [word, 'gauge-error'] as const),
  ...['LOBAT', 'LOWBAT', 'LOWBATT', 'LOWBATTERY', 'LOW-BATTERY', 'BAT', 'BATT', 'BATTERY'].map(
    (word) => [word, 'low-battery'] as const,
  ),
  ...['HOLD', 'HLD', 'HELD'].map((word) => [word, 'held'] as const),
]);

/** Looks a word up without regard to case or a leading sign ("-OL"). */
export function statusLookup(format: LineFormat): (word: string) => Status | undefined {
  const own = new Map<string, Status>();
  for (const word of format.words?.overload ?? []) own.set(word.toUpperCase(), 'overload');
  for (const word of format.words?.error ?? []) own.set(word.toUpperCase(), 'gauge-error');
  for (const word of format.words?.lowBattery ?? []) own.set(word.toUpperCase(), 'low-battery');
  return (word) => {
    const upper = word.toUpperCase();
    return own.get(upper) ?? usual.get(upper.replace(/^[+-]/u, '')) ?? coded(upper);
  };
}

/**
 * Names before a number that say that it is the largest, the smallest or the span of what the gauge has seen, and not what it
 * reads now (common practice). A format that names the number by them has been told so.
 */
export const isExtreme = (word: string): boolean => /^(?:max|min|peak|pk|tir)$/iu.test(word);

/** "E01", "ERR12", "ERROR-3": an error with its number, which must not be taken for the reading. */
const coded = (word: string): Status | undefined =>
  /^(?:ERR(?:OR)?[-:]?\d+|E\d{2,3})$/u.test(word) ? 'gauge-error' : undefined;
