import type { Side } from './measured.ts';
import type { Turn } from './turns.ts';

/** A turn at a stop. Only rests of one stretch make a rock: a gap, a lift or a jump between them ends the stretch. */
export interface Rest extends Turn {
  readonly side: Side;
  readonly stretch: number;
}

/** There and back: two rests of its own. `value` is the movement of the stem between them. */
interface Rock {
  readonly one: Rest;
  readonly other: Rest;
  readonly value: number;
}

/** Pairs rests two by two in the order of time. Neighbouring rocks share no rest, so each tells something new. */
export function rocksOf(rests: readonly Rest[]): readonly Rock[] {
  const rocks: Rock[] = [];
  let one: Rest | undefined;
  for (const rest of rests) {
    if (one === undefined || one.stretch !== rest.stretch || one.side === rest.side) {
      one = rest;
      continue;
    }
    rocks.push({ one, other: rest, value: Math.abs(one.level - rest.level) });
    one = undefined;
  }
  return rocks;
}

export const valuesOf = (rocks: readonly Rock[]): readonly number[] => rocks.map((rock) => rock.value);

export const levelsOf = (rests: readonly Rest[], side: Side): readonly number[] =>
  rests.filter((rest) => rest.side === side).map((rest) => rest.level);
