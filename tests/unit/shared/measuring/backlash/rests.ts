import type { Rest } from '../../../../../src/shared/measuring/backlash/rocks.ts';

/** A rest written by hand: ten readings of a second, a second and a half after the one before. */
export const rest = (side: 'low' | 'high', level: number, more: Partial<Rest> = {}): Rest => ({
  side,
  level,
  stretch: 0,
  readings: 10,
  squares: 0,
  length: 14,
  from: 0,
  to: 13,
  from_t: 0,
  to_t: 1,
  at_t: 0,
  read_s: 0.7,
  creep: 0,
  bow: 0,
  lingers: 0,
  still: 14,
  passed: 0,
  also: undefined,
  ...more,
});

/** Rests in turn, low first, at times of their own; what is added to each may depend on when and where. */
export const row = (
  many: number,
  backlash: number,
  added: (at_t: number, index: number) => number = () => 0,
  timeOf: (index: number) => number = (index) => 1.5 * index,
): readonly Rest[] =>
  Array.from({ length: many }, (_, index) => {
    const at_t = timeOf(index);
    const side = index % 2 === 0 ? 'low' : 'high';
    return rest(side, (side === 'high' ? backlash : 0) + added(at_t, index), { at_t, from_t: at_t, to_t: at_t + 1 });
  });
