/** Numbers that look drawn and are always the same: the same trials must always get the same plan. */
export interface Steady {
  /** Evenly in 0…1. */
  readonly even: () => number;
  readonly normal: () => number;
  /** A whole number below `count`. */
  readonly below: (count: number) => number;
}

/** A counter stirred by xor, shift and multiply (32 bits, from memory); far longer than any plan needs. */
export function steady(): Steady {
  let counter = 0;
  const even = (): number => {
    counter = (counter + 0x6d2b79f5) | 0;
    let word = Math.imul(counter ^ (counter >>> 15), counter | 1);
    word ^= word + Math.imul(word ^ (word >>> 7), word | 61);
    return ((word ^ (word >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    even,
    normal: () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even()),
    below: (count) => Math.floor(even() * count),
  };
}
