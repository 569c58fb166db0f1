const shortest_ms = 1000;
const longest_ms = 60_000;

/**
 * How long to wait before trying again: a second after the first failure, twice as long after each further one, a minute at most,
 * each a little differently for each bench, so that five hundred do not knock at once when the archive is back.
 * @param failures how many there were in a row, from 1
 * @param chance from 0 to 1
 */
export const wait_ms = (failures: number, chance: number): number =>
  Math.min(longest_ms, shortest_ms * 2 ** (failures - 1)) * (0.75 + 0.25 * chance);
