import { at } from '../../basics/at.ts';
import { mean } from '../../basics/statistics.ts';
import type { Side } from './measured.ts';
import type { Rest } from './rocks.ts';

/**
 * The backlash from rests, each held against its two neighbours.
 *
 * A base that creeps, a part that warms, a bench that settles: all move the readings while the gear is rocked. A rest less
 * the one before it keeps what moved in between, and always with the same sign, so no number of rocks averages it away. A
 * rest less what its two neighbours say for the same moment does not: an even drift falls out entirely, and of an uneven
 * one only its bend between three rests is left, whose sign changes from one rest to the next.
 */

/** Rests of one landing, one after the other, each on the other side than the one before. */
export type Row = readonly Rest[];

/** Cuts rests into rows. Only rows of three and more tell anything: in a shorter one no rest has two neighbours. */
export function rowsOf(rests: readonly Rest[]): readonly Row[] {
  const rows: Rest[][] = [];
  for (const rest of rests) {
    const row = rows.at(-1);
    const last = row?.at(-1);
    if (row !== undefined && last?.stretch === rest.stretch && last.side !== rest.side) row.push(rest);
    else rows.push([rest]);
  }
  return rows.filter((row) => row.length >= LEAST_ROW);
}

const LEAST_ROW = 3;

export const longestRow = (rests: readonly Rest[]): Row | undefined =>
  rowsOf(rests).toSorted((one, other) => other.length - one.length)[0];

/** What a station's rows say together. Lengths in mm. */
export interface Between {
  /** Mean of every rest against its neighbours. */
  readonly value: number;
  /** Standard deviation of one rest, drift set aside: about a straight line in time for each row. */
  readonly sd: number;
  /** Its degrees of freedom. */
  readonly nu: number;
  /** What the value's standard deviation is of that of one rest. */
  readonly share: number;
  /** Of each rest, how far it lies off the straight line of its side and row. */
  readonly offs: readonly Off[];
  /** Even drift from the first to the last rest of the longest row, up positive. */
  readonly drift: number;
}

interface Off {
  readonly side: Side;
  readonly off: number;
}

/** Undefined where there is no row, or rests too few to say how much they scatter. */
export function between(rests: readonly Rest[]): Between | undefined {
  const rows = rowsOf(rests);
  const many = rows.reduce((sum, row) => sum + row.length, 0);
  const nu = many - 2 * rows.length - 1;
  if (nu < 1) return undefined;
  const { value, share } = againstNeighbours(rows);
  return { value, share, nu, ...scatter(rows, nu) };
}

/** The mean over all threes, and √Σw² of the weights that it gives to the rests. */
function againstNeighbours(rows: readonly Row[]): { readonly value: number; readonly share: number } {
  const threes = rows.reduce((sum, row) => sum + row.length - 2, 0);
  let value = 0;
  let squares = 0;
  for (const row of rows) {
    const weights = weightsIn(row);
    for (const [index, rest] of row.entries()) {
      const weight = at(weights, index) / threes;
      value += weight * rest.level;
      squares += weight * weight;
    }
  }
  return { value, share: Math.sqrt(squares) };
}

/** How often each rest counts, + for the high side: 1 as the middle of three, less its shares as a neighbour of others. */
function weightsIn(row: Row): readonly number[] {
  const weights = row.map(() => 0);
  const add = (index: number, weight: number): void => void (weights[index] = at(weights, index) + weight);
  for (const [index, rest] of row.entries()) {
    const [before, after] = [row[index - 1], row[index + 1]];
    if (before === undefined || after === undefined) continue;
    const sign = rest.side === 'high' ? 1 : -1;
    const early = shareOfFirst(before.at_t, rest.at_t, after.at_t);
    add(index, sign);
    add(index - 1, -sign * early);
    add(index + 1, -sign * (1 - early));
  }
  return weights;
}

/** By how much the earlier neighbour counts in what the two say for the moment of the rest between: straight in time. */
function shareOfFirst(before: number, at: number, after: number): number {
  const share = (after - at) / (after - before);
  // A clock that stands or jumps tells nothing about when: half and half then.
  return share > 0 && share < 1 ? share : 0.5;
}

/** Least squares of all rows: one backlash, and for each row a level and a slope of its own (Frisch and Waugh's way). */
function scatter(rows: readonly Row[], nu: number): Pick<Between, 'sd' | 'offs' | 'drift'> {
  const free = rows.map((row) => ({
    row,
    levels: straightened(row, ({ level }) => level),
    sides: straightened(row, ({ side }) => (side === 'high' ? 0.5 : -0.5)),
  }));
  const cross = sumOver(free.map(({ levels, sides }) => product(levels, sides)));
  const power = sumOver(free.map(({ sides }) => product(sides, sides)));
  const backlash = power === 0 ? 0 : cross / power;
  const offs = free.flatMap(({ row, levels, sides }) =>
    row.map(({ side }, index) => ({ side, off: at(levels, index) - backlash * at(sides, index) })),
  );
  const sd = Math.sqrt(sumOver(offs.map(({ off }) => off * off)) / nu);
  const [longest = []] = rows.toSorted((one, other) => other.length - one.length);
  return { sd, offs, drift: driftOf(longest, backlash) };
}

const sumOver = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

/** Sum of the products of two rows of equal length. */
export const product = (one: readonly number[], other: readonly number[]): number =>
  sumOver(one.map((value, index) => value * at(other, index)));

/** Something of each rest, less its straight line in time. */
function straightened(row: Row, of: (rest: Rest) => number): readonly number[] {
  const values = row.map(of);
  const { times, slope } = lineThrough(row, values);
  const middle = mean(values);
  return values.map((value, index) => value - middle - slope * at(times, index));
}

function lineThrough(
  row: Row,
  values: readonly number[],
): { readonly times: readonly number[]; readonly slope: number } {
  const middle = mean(row.map(({ at_t }) => at_t));
  const times = row.map(({ at_t }) => at_t - middle);
  const power = product(times, times);
  return { times, slope: power > 0 && power < Infinity ? product(times, values) / power : 0 };
}

function driftOf(row: Row, backlash: number): number {
  const middles = row.map(({ level, side }) => (side === 'high' ? level - backlash : level));
  const { times, slope } = lineThrough(row, middles);
  return row.length === 0 ? 0 : slope * (at(times, times.length - 1) - at(times, 0));
}
