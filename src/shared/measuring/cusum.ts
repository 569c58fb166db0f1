/** A two-sided cumulative sum (Page): how far readings have drifted off their level, above and below. */
export interface Cusum {
  up: number;
  down: number;
}

/**
 * Takes in one reading; it is changed in place, because it runs at every reading of a session.
 * @param off the reading's distance from the level, in standard deviations.
 * @param slack k: as much of each distance counts as noise; about half the step that is looked for.
 */
export function stepCusum(cusum: Cusum, off: number, slack: number): void {
  cusum.up = Math.max(0, cusum.up + off - slack);
  cusum.down = Math.max(0, cusum.down - off - slack);
}
