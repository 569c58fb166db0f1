import { type Angle, type Length, mm, radians } from '../quantities/quantity.ts';
import { type Flank, flankNames, type Mark } from '../pattern/mark.ts';
import { type EaseOff, easeoffAt } from './easeoff.ts';
import type { FlankModel } from './flankModel.ts';
import type { MeshModel } from './meshModel.ts';
import { type Paint, paintFrom } from './paint.ts';
import { markFrom } from './paintedMark.ts';

/** Where the pinion and the ring gear stand, counted from the position the ease-off belongs to (contracts.md, signs). */
export interface Position {
  readonly pinionOut: Length;
  readonly ringAway: Length;
}

/** What paint has taught: either may be left out, then the model's own stands. */
export interface Learnt {
  /** Film the compound leaves (mm). */
  readonly film?: Length;
  readonly easeoff?: Partial<Readonly<Record<Flank, EaseOff>>>;
}

/** Change of backlash against position 0, 0. */
export interface BacklashChange {
  /** Extra free turn of the ring gear with the pinion held: the one true number, everything else is a way to read it. */
  readonly turn: Angle;
  readonly transverseMean: Length;
  readonly transverseHeel: Length;
  readonly normalMean: Readonly<Record<Flank, Length>>;
  readonly normalHeel: Readonly<Record<Flank, Length>>;
}

export interface Evaluation {
  readonly backlash: BacklashChange;
  readonly marks: Readonly<Record<Flank, Mark>>;
}

/**
 * Both flanks at a position: the whole gap field is moved, nothing is linearised along the flank, so the mark may cross
 * it and be cut by its edges. To first order in the movement itself; checked against a full contact calculation to
 * 0.1 mm (docs/mesh-model.md).
 */
export function evaluate(model: MeshModel, position: Position, learnt: Learnt = {}): Evaluation {
  const turn = flankNames.reduce((sum, flank) => sum + openedAt(model, flank, position, learnt), 0);
  return {
    backlash: backlashFrom(model, turn),
    marks: {
      convex: evaluateFlank(model, 'convex', position, learnt),
      concave: evaluateFlank(model, 'concave', position, learnt),
    },
  };
}

/** The mark on one flank alone. */
export function evaluateFlank(model: MeshModel, flank: Flank, position: Position, learnt: Learnt = {}): Mark {
  return markFrom(model.flanks[flank].grid, paintAt(model, flank, position, learnt), learnt.film ?? model.film);
}

/** Turn of the ring gear that the movement opened on this flank (rad). */
function openedAt(model: MeshModel, flank: Flank, position: Position, learnt: Learnt): number {
  const easeoff = learnt.easeoff?.[flank];
  const left = (at: Position): number => smallest(gapsAt(model.flanks[flank], at, easeoff));
  return (left(position) - left(origin)) / Math.abs(model.flanks[flank].lever);
}

const origin: Position = { pinionOut: mm(0), ringAway: mm(0) };

/** The paint on one flank, for a picture: cells as in flankGrid.ts, toe to heel and root to crown. */
export function paintAt(model: MeshModel, flank: Flank, position: Position, learnt: Learnt = {}): Paint {
  const gaps = gapsAt(model.flanks[flank], position, learnt.easeoff?.[flank]);
  return paintFrom(model.flanks[flank].grid, gaps, learnt.film ?? model.film);
}

/** What is left between the flanks where they come closest (mm): negative when the movement closes them. */
const smallest = (gaps: Float64Array): number => gaps.reduce((a, b) => Math.min(a, b));

/** Gap at every grid point of a flank (mm): its relief and what the movements opened or closed. */
export function gapsAt(flank: FlankModel, position: Position, easeoff: EaseOff = flank.easeoff): Float64Array {
  const { u, v, perPinionOut, perRingAway } = flank.grid;
  const { pinionOut, ringAway } = position;
  const gaps = new Float64Array(u.length);
  for (let index = 0; index < gaps.length; index += 1) {
    const relief = easeoffAt(easeoff, u[index] ?? 0, v[index] ?? 0);
    gaps[index] = relief + pinionOut * (perPinionOut[index] ?? 0) + ringAway * (perRingAway[index] ?? 0);
  }
  return gaps;
}

function backlashFrom(model: MeshModel, turn: number): BacklashChange {
  const { ringMeanRadius, ringMeanCone, ringOuterCone } = model.blank;
  const mean = turn * ringMeanRadius;
  const heel = (mean * ringOuterCone) / ringMeanCone;
  const normal = (size: number, at: 'mean' | 'heel'): Record<Flank, Length> => ({
    convex: mm(size * squareToTooth(model.flanks.convex, at)),
    concave: mm(size * squareToTooth(model.flanks.concave, at)),
  });
  return {
    turn: radians(turn),
    transverseMean: mm(mean),
    transverseHeel: mm(heel),
    normalMean: normal(mean, 'mean'),
    normalHeel: normal(heel, 'heel'),
  };
}

/** Reading square to this tooth flank for each mm read along the rotation. */
export const squareToTooth = (flank: FlankModel, at: 'mean' | 'heel'): number =>
  Math.cos(flank.pressureAngle) * Math.cos(flank.spiral[at]);
