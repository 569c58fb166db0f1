import type { Still } from './stills.ts';

/** Pieces of one rest; a much shorter one is its swinging in or its leaving. */
export const areAlike = (one: number, other: number): boolean => Math.min(one, other) >= PIECES * Math.max(one, other);

const PIECES = 0.5;

/** One still that a chance cut in two; the straight line through it is the least-squares one of both pieces. */
export function joined(one: Still, two: Still): Still {
  const readings = one.readings + two.readings;
  const level = (one.level * one.readings + two.level * two.readings) / readings;
  const share = (one.readings * two.readings) / readings;
  const step = two.level - one.level;
  const tilt = (one.creep * one.readings ** 2 + two.creep * two.readings ** 2) / 12 + (share * step * readings) / 2;
  const spread = (one.readings ** 3 + two.readings ** 3) / 12 + (share * readings ** 2) / 4;
  return {
    level,
    readings,
    squares: one.squares + two.squares,
    length: one.length + two.length,
    from: one.from,
    to: two.to,
    from_t: one.from_t,
    to_t: two.to_t,
    at_t: (one.at_t * one.readings + two.at_t * two.readings) / readings,
    read_s: one.read_s + two.read_s,
    creep: (tilt / spread) * readings,
    bow: (one.readings > two.readings ? one : two).bow,
  };
}
