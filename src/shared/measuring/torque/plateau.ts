/**
 * Tells where a gauge ends. A torque that climbs steeply, stands at one and the same reading and goes down again did not
 * stand: the display did. A gauge that sends each of its readings several times looks alike on every height.
 */
export interface Plateau {
  last: number;
  /** Readings in a row that are the same, and by how much the first of them stood above the one before. */
  run: number;
  climbed: number;
  /** A plateau that was left and waits for the next readings to tell whether the gauge repeats itself. */
  left: number;
  /** The highest reading at which the gauge ended; minus infinity where it did not. */
  end: number;
}

export const newPlateau = (): Plateau => ({ last: Number.NaN, run: 0, climbed: 0, left: Number.NaN, end: -Infinity });

/** Of readings that climb, three alike at the top are no chance. */
const fewest = 3;
/** Steps by which it has to have climbed onto the plateau at once: a slow top is flat by itself. */
const steep = 3;

/** Takes in one reading of the first moments. */
export function watchPlateau(plateau: Plateau, value: number, step: number): void {
  const { last, run, climbed, left } = plateau;
  if (value === last) {
    plateau.run += 1;
    return;
  }
  // What was left is known to have been the end once the reading after it has come alone.
  if (left === left) {
    if (run === 1) plateau.end = Math.max(plateau.end, left);
    plateau.left = Number.NaN;
  } else if (run >= fewest && climbed > steep * step && value < last) plateau.left = last;
  plateau.run = 1;
  plateau.climbed = value - last;
  plateau.last = value;
}
