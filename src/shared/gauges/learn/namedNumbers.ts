import type { LineFormat } from '../lineFormat.ts';
import { namedValues } from '../named.ts';
import { readNumber } from '../numberText.ts';
import { unitNamed } from '../../basics/units.ts';
import { type Movement, movementOf } from './movement.ts';

/** A number that lines tell by name, followed through all of them. */
interface NamedNumber {
  readonly name: string;
  readonly unit: LineFormat['unit'];
  readonly hasDecimals: boolean;
  readonly role: Movement;
}

const numberAndUnit = /^([+-]?\s*[\d.,]+(?:[eE][+-]?\d+)?)\s*(.*)$/u;

/** A line may be torn now and then; a name that is missing more often is not the gauge's. */
const nearlyAll = 0.95;
const fewest = 2;

/**
 * The numbers that nearly every line tells by name. Undefined where lines do not name two and more: a single name is the
 * label of the line.
 */
export function namedNumbers(
  texts: readonly string[],
  decimal: LineFormat['decimal'],
): readonly NamedNumber[] | undefined {
  const columns = new Map<string, string[]>();
  for (const text of texts) {
    for (const { name, written } of namedValues(text)) columns.set(name, [...(columns.get(name) ?? []), written]);
  }
  const full = [...columns].filter(
    ([, written]) => written.length >= nearlyAll * texts.length && written.length <= texts.length,
  );
  const found = full.flatMap(([name, written]) => numberOf(name, written, decimal) ?? []);
  return found.length < fewest ? undefined : found;
}

function numberOf(name: string, written: readonly string[], decimal: LineFormat['decimal']): NamedNumber | undefined {
  const read = written.flatMap((text) => {
    const [, digits = '', unit = ''] = numberAndUnit.exec(text) ?? [];
    const number = readNumber(digits, { decimal, sign: 'leading' });
    const known = unit === '' || unitNamed(unit) !== undefined;
    return number === undefined || !known ? [] : [{ ...number, unit }];
  });
  if (read.length < nearlyAll * written.length) return undefined;
  const decimals = Math.max(...read.map((number) => number.decimals));
  const step = read.some(({ exponent }) => exponent) ? undefined : 10 ** -decimals;
  const withUnit = read.every(({ unit }) => unit !== '');
  return {
    name,
    unit: withUnit ? { is: 'beside' } : { is: 'not-sent' },
    hasDecimals: decimals > 0,
    role: movementOf(
      read.map(({ value }) => value),
      step,
    ),
  };
}
