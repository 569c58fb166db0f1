import { carriers } from './chebyshev.ts';
import { FLANK, type FlankPair, type GearSet, type RingPoint } from './gearSet.ts';
import { facing } from './ringFlank.ts';
import { turnNear } from './solve.ts';

/** Where the two gears stand, away from where they were cut to stand, mm. */
export interface Position {
  /** Pinion away from the ring-gear axis along its own axis. */
  readonly pinionOut_mm: number;
  /** Ring gear away from the pinion along its own axis. */
  readonly ringAway_mm: number;
  /** Pinion axis farther beside the ring-gear axis. */
  readonly offsetMore_mm?: number;
}

/**
 * What one ring-gear flank meets, place by place of the painted flank (rows of height, each along the face). Turning
 * towards the pinion, a place would be stopped at `level` (rad of ring gear behind the free middle, smallest touches
 * first) when the gears have rolled to `roll`, and later or earlier by half of `bend` times the square of the rest.
 */
export interface Field {
  readonly heels: readonly number[];
  readonly crowns: readonly number[];
  readonly level: Float64Array;
  readonly roll: Float64Array;
  readonly bend: Float64Array;
  readonly lever: Float64Array;
  /** Height above the pinion's tip cone, mm; metal meets metal where it is negative. */
  readonly aboveTip: Float64Array;
}

/** The angle at which a ring-gear point is stopped by the pinion, at one roll; 0 for a true conjugate in mesh. */
export function stopAngle(set: GearSet, pair: FlankPair, at: Position, point: RingPoint, roll: number): number {
  const { x, rho, tau } = seenFromPinion(set, at, point, roll);
  const [U, V] = set.frame.fromPinion(x, rho);
  return (facing(pair.ring.name) * (tau - pair.pinion.angle(U, V) + set.blank.ratio * roll)) / set.blank.ratio;
}

/** Where a ring-gear point lies about the pinion axis at a roll: along it, out of it, and the angle round it. */
export function seenFromPinion(set: GearSet, at: Position, point: RingPoint, roll: number) {
  const angle = point.polar + roll;
  const y = point.R * Math.sin(angle) - set.blank.pinionAxisY_mm - (at.offsetMore_mm ?? 0);
  const z = point.z + at.ringAway_mm;
  return { x: point.R * Math.cos(angle) - at.pinionOut_mm, rho: Math.hypot(y, z), tau: Math.atan2(z, y) };
}

/** First reach of the search for the roll at which a point is stopped earliest, rad: about 1 mm on the pinion. */
const REACH = 0.01;

function pointField(set: GearSet, pair: FlankPair, at: Position, point: RingPoint): readonly number[] {
  const turn = turnNear((roll) => stopAngle(set, pair, at, point, roll), point.roll, REACH, 2);
  const seen = seenFromPinion(set, at, point, turn.at);
  const [U, V] = set.frame.fromPinion(seen.x, seen.rho);
  return [turn.value, turn.at, turn.bend, point.lever, set.frame.abovePinionTip(U, V)];
}

/** Carries values at the contact points to every painted place, by the polynomial through them. */
function spread(values: readonly (readonly number[])[], along: readonly Float64Array[], up: readonly Float64Array[]) {
  const rows = values.map((row) => along.map((weights) => weights.reduce((sum, w, i) => sum + w * (row[i] ?? 0), 0)));
  const out = new Float64Array(up.length * along.length);
  up.forEach((weights, j) => {
    for (let i = 0; i < along.length; i += 1) {
      out[j * along.length + i] = weights.reduce((sum, w, k) => sum + w * (rows[k]?.[i] ?? 0), 0);
    }
  });
  return out;
}

/** Evenly spaced places over the visible flank, edges included. */
const evenly = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i / (count - 1) - 0.5);

/** Brings one flank of the ring gear to the pinion, point by point, at a position. */
export function bringTogether(set: GearSet, pair: FlankPair, at: Position): Field {
  const [heels, crowns] = [evenly(set.fineness.paint[0]), evenly(set.fineness.paint[1])];
  const along = carriers(FLANK, set.fineness.contact[0], heels);
  const up = carriers(FLANK, set.fineness.contact[1], crowns);
  const found = pair.points.map((row) => row.map((point) => pointField(set, pair, at, point)));
  const part = (which: number) =>
    spread(
      found.map((row) => row.map((values) => values[which] ?? 0)),
      along,
      up,
    );
  return { heels, crowns, level: part(0), roll: part(1), bend: part(2), lever: part(3), aboveTip: part(4) };
}
