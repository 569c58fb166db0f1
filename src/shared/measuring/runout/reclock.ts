import { type Angle, type Length, mm, radians } from '../../basics/quantity.ts';
import { type Harmonic, harmonicOf, turned } from '../../basics/harmonics.ts';

/** First harmonic of a runout with how well it is known. Angles are the case's: the flange does not turn against it. */
export interface RunoutVector {
  readonly amplitude: Length;
  readonly highSpot: Angle;
  /** Standard uncertainty of each of its two parts. */
  readonly u: number;
}

export interface Reclocked {
  /** How many bolt holes to move the ring gear on, in the sense in which angles count; 0 leaves it. */
  readonly holes: number;
  readonly turn: Angle;
  /** TIR of the first harmonic to expect there, twice its amplitude; finer waves stay as they are. */
  readonly tir: Length;
  /** Standard uncertainty of that TIR. */
  readonly u: Length;
  readonly highSpot: Angle;
}

/**
 * Runout as vectors: what the mounted gear shows is the flange's share plus the gear's own. Bolted on some holes
 * further, the gear's own share turns with it and the flange's stays.
 *
 * @param flange runout of the case flange, gear off
 * @param mounted runout of the ring gear as bolted on now, in the same angles
 * @param bolts number of equally spaced bolts
 * @param flangeScale what the flange's runout becomes at the radius of the gear's indicator: a face wobble grows with the
 *   radius (gear radius ÷ flange radius); 1 for a runout square to the axis
 * @returns every position, best first. Where the best differs from `holes` 0 by less than its doubt, moving it is a guess.
 */
export function reclock(
  flange: RunoutVector,
  mounted: RunoutVector,
  bolts: number,
  flangeScale = 1,
): readonly Reclocked[] {
  const stays = scaled(vectorOf(flange), flangeScale);
  const own = minus(vectorOf(mounted), stays);
  const positions = Array.from({ length: bolts }, (_, holes) => {
    const turn = radians((2 * Math.PI * holes) / bolts);
    const there = plus(turned(own, turn), stays);
    // mounted turns with the gear; of the flange there remains the difference between staying and turning.
    const u = Math.hypot(mounted.u, 2 * Math.sin(turn / 2) * flangeScale * flange.u);
    return { holes, turn, tir: mm(2 * there.amplitude), u: mm(2 * u), highSpot: there.highSpot };
  });
  return positions.sort((a, b) => a.tir - b.tir);
}

/** Whether moving to the best position is more than a guess: it gains more than twice the doubt of the two together. */
export function worthMoving(positions: readonly Reclocked[]): boolean {
  const [best, now] = [positions[0], positions.find(({ holes }) => holes === 0)];
  if (best === undefined || now === undefined || best.holes === 0) return false;
  return now.tir - best.tir > 2 * Math.hypot(best.u, now.u);
}

const vectorOf = ({ amplitude, highSpot }: RunoutVector): Harmonic =>
  harmonicOf(1, amplitude * Math.cos(highSpot), amplitude * Math.sin(highSpot));
const scaled = ({ cos, sin }: Harmonic, by: number): Harmonic => harmonicOf(1, cos * by, sin * by);
const plus = (a: Harmonic, b: Harmonic): Harmonic => harmonicOf(1, a.cos + b.cos, a.sin + b.sin);
const minus = (a: Harmonic, b: Harmonic): Harmonic => harmonicOf(1, a.cos - b.cos, a.sin - b.sin);
