import type { LineReading } from '../gaugeReading.ts';
import type { LineFormat } from '../lineFormat.ts';
import type { Doubt } from './learned.ts';
import { movementOf, takesTurns } from './movement.ts';

/** Fewer whole lines say too little about how the others will be. */
export const linesToKnow = 5;

/** What the lines read by a format leave in doubt about it. */
export function doubtsOf(format: LineFormat, read: readonly LineReading[], lines: number): Doubt[] {
  const bare = read.every((line) => line.unit === undefined);
  const doubts: Doubt[] = [];
  if (lines < linesToKnow) doubts.push('too-few-lines');
  if (read.length < 0.95 * lines) doubts.push('some-unreadable');
  if (read.every((line) => line.decimals === 0)) doubts.push('no-decimals');
  if (format.decimal === ',' && commaMayPart(read)) doubts.push('comma');
  if (new Set(read.map((line) => line.unit)).size > 1) doubts.push('two-units');
  else doubts.push(...doubtsOfMovement(read, bare));
  if (bare) doubts.push('no-unit');
  return doubts;
}

/** A number with a unit beside it is no clock: it may go one way. */
function doubtsOfMovement(read: readonly LineReading[], bare: boolean): Doubt[] {
  const values = read.map((line) => line.value);
  const step = read.some((line) => line.exponent)
    ? undefined
    : 10 ** -Math.max(0, ...read.map((line) => line.decimals));
  const movement = movementOf(values, step);
  if (movement === 'still') return ['did-not-move'];
  if (takesTurns(values, step)) return ['two-axes'];
  return bare && movement !== 'moves' ? ['one-way'] : [];
}

/**
 * "1,234" with a comma between channel and counts, "17,234" with one behind a counter, "234,0" with one before a state: then
 * one side of the comma stands still or counts. A nought before it is what a small number has, and no channel.
 */
function commaMayPart(read: readonly LineReading[]): boolean {
  const written = read.filter((line) => line.decimals > 0);
  const before = written.map((line) => Math.trunc(Math.abs(line.value)));
  const behind = written.map((line, i) => Math.round((Math.abs(line.value) - (before[i] ?? 0)) * 10 ** line.decimals));
  const isChannel = isOne(before) && before[0] !== 0;
  return isChannel || movementOf(before, 1) === 'counts' || (isOne(behind) && !isOne(before));
}

const isOne = (values: readonly number[]): boolean => new Set(values).size === 1;
