/** Repeatable chance: every simulated axle, hand and fault grows from a seed, so that a failure can be shown again. */
export interface Random {
  /** Uniform in [0, 1), 53 bits. */
  next(): number;
  uniform(low: number, high: number): number;
  normal(mean: number, standardDeviation: number): number;
}

const MASK = (1n << 64n) - 1n;

/** SplitMix64 (Steele, Lea and Flood 2014): a 64-bit Weyl sequence, its words well stirred. Constants from memory. */
function splitMix64(seed: bigint): () => bigint {
  let state = seed & MASK;
  return () => {
    state = (state + 0x9e3779b97f4a7c15n) & MASK;
    let word = state;
    word = ((word ^ (word >> 30n)) * 0xbf58476d1ce4e5b9n) & MASK;
    word = ((word ^ (word >> 27n)) * 0x94d049bb133111ebn) & MASK;
    return word ^ (word >> 31n);
  };
}

/** A stream of chance from a whole-number seed; the same seed gives the same stream on every machine. */
export function seeded(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`a seed is a whole number, not ${seed}`);
  const word = splitMix64(BigInt(seed));
  const next = () => Number(word() >> 11n) / 2 ** 53;
  // Box–Muller, one of its pair thrown away: a stream without memory is worth the second logarithm.
  const standardNormal = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
  return {
    next,
    uniform: (low, high) => low + (high - low) * next(),
    normal: (mean, standardDeviation) => mean + standardDeviation * standardNormal(),
  };
}
