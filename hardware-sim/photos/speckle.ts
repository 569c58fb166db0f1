/** Smooth chance over a plane: the unevenness of a brushed film, of oil and of ground metal. */
export type Speckle = (x: number, y: number) => number;

/** A whole number stirred from two cell numbers and a seed (multipliers from memory, as good as any odd ones). */
function stirred(x: number, y: number, seed: number): number {
  let word = Math.imul(x, 0x27d4eb2d) ^ Math.imul(y, 0x165667b1) ^ seed;
  word = Math.imul(word ^ (word >>> 15), 0x2c1b3c6d);
  word = Math.imul(word ^ (word >>> 12), 0x297a2d39);
  return (word ^ (word >>> 15)) >>> 0;
}

const eased = (x: number): number => x * x * (3 - 2 * x);

/** Value noise, about −1…1 with cells of size 1: chance at the corners, eased between them. */
export function speckle(seed: number): Speckle {
  const corner = (x: number, y: number) => stirred(x, y, seed) / 2 ** 31 - 1;
  return (x, y) => {
    const [i, j] = [Math.floor(x), Math.floor(y)];
    const [u, v] = [eased(x - i), eased(y - j)];
    const low = corner(i, j) + u * (corner(i + 1, j) - corner(i, j));
    const high = corner(i, j + 1) + u * (corner(i + 1, j + 1) - corner(i, j + 1));
    return low + v * (high - low);
  };
}

/** Two layers of speckle, the finer one half as strong. */
export function layered(seed: number): Speckle {
  const [coarse, fine] = [speckle(seed), speckle(seed ^ 0x5bd1e995)];
  return (x, y) => coarse(x, y) * 0.7 + fine(2.3 * x + 11, 2.3 * y + 7) * 0.35;
}
