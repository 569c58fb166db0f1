import { type Angle, type Length, mm, radians } from '../../basics/quantity.ts';
import { type Flank, flankNames, type Mark } from '../mark/mark.ts';
import { type Closing, closingAlong } from './contactLines.ts';
import { type EaseOff, easeoffAt } from './easeoff.ts';
import type { FlankModel } from './flankModel.ts';
import type { MeshModel } from './meshModel.ts';
import { type Paint, paintFrom } from './paint.ts';
import { markFrom } from './paintedMark.ts';

/** Where the pinion and the ring gear stand, counted from the position the ease-off belongs to (docs/signs-and-units.md, signs). */
export interface Position {
  readonly pinionOut: Length;
  readonly ringAway: Length;
}

/** What paint has taught: either may be left out, then the model's own stands. */
interface Learnt {
  /** Film the compound leaves (mm). */
  readonly film?: Length;
  readonly easeoff?: Partial<Readonly<Record<Flank, EaseOff>>>;
}

/** Change of backlash against position 0, 0. */
interface BacklashChange {
  /** Extra free turn of the ring gear with the pinion held: the one true number, everything else is a way to read it. */
  readonly turn: Angle;
  readonly transverseMean: Length;
  readonly transverseHeel: Length;
  readonly normalMean: Readonly<Record<Flank, Length>>;
  readonly normalHeel: Readonly<Record<Flank, Length>>;
}

interface Evaluation {
  readonly backlash: BacklashChange;
  readonly marks: Readonly<Record<Flank, Mark>>;
}

/**
 * Both flanks at a position: the whole gap field is moved, nothing is linearised along the flank, so the mark may cross
 * it and be cut by its edges. To first order in the movement itself; checked against a full contact calculation to
 * 0.1 mm (docs/mesh-model.md).
 */
export function evaluate(model: MeshModel, position: Position, learnt: Learnt = {}): Evaluation {
  const met = { convex: metAt(model, 'convex', position, learnt), concave: metAt(model, 'concave', position, learnt) };
  const turn = flankNames.reduce((sum, flank) => {
    const opened = met[flank].closing.touch - metAt(model, flank, origin, learnt).closing.touch;
    return sum + opened / Math.abs(model.flanks[flank].lever);
  }, 0);
  return {
    backlash: backlashFrom(model, turn),
    marks: { convex: markOf(model, met.convex, learnt), concave: markOf(model, met.concave, learnt) },
  };
}

/** One flank brought to its pinion: the gap everywhere and how it closes. */
interface Met {
  readonly flank: Flank;
  readonly gaps: Float64Array;
  readonly closing: Closing;
}

function metAt(model: MeshModel, flank: Flank, position: Position, learnt: Learnt): Met {
  const gaps = gapsAt(model.flanks[flank], position, learnt.easeoff?.[flank]);
  return { flank, gaps, closing: closingAlong(model.flanks[flank].grid.lines, gaps) };
}

function markOf(model: MeshModel, met: Met, learnt: Learnt): Mark {
  const { grid } = model.flanks[met.flank];
  const film = learnt.film ?? model.film;
  return markFrom(grid, paintFrom(grid, met.gaps, met.closing, film), film);
}

/** The mark on one flank alone. */
export const evaluateFlank = (model: MeshModel, flank: Flank, position: Position, learnt: Learnt = {}): Mark =>
  markOf(model, metAt(model, flank, position, learnt), learnt);

const origin: Position = { pinionOut: mm(0), ringAway: mm(0) };

/** The paint on one flank, for a picture: cells as in flankGrid.ts, toe to heel and root to crown. */
export function paintAt(model: MeshModel, flank: Flank, position: Position, learnt: Learnt = {}): Paint {
  const { gaps, closing } = metAt(model, flank, position, learnt);
  return paintFrom(model.flanks[flank].grid, gaps, closing, learnt.film ?? model.film);
}

/**
 * Gap at every grid point of a flank (mm): what the movements opened or closed, and the relief, which travels with the
 * pinion.
 */
function gapsAt(flank: FlankModel, position: Position, easeoff: EaseOff = flank.easeoff): Float64Array {
  const places = partnersAt(flank, position);
  const opened = moved(position, flank.grid.pinionOut.gap, flank.grid.ringAway.gap);
  return opened.map((gap, index) => gap + easeoffAt(easeoff, places.u[index] ?? 0, places.v[index] ?? 0));
}

/** Place whose relief each grid point meets at a position (mm from mid face and mid flank). */
function partnersAt(flank: FlankModel, position: Position): { readonly u: Float64Array; readonly v: Float64Array } {
  const { u, v, pinionOut, ringAway } = flank.grid;
  const shiftU = moved(position, pinionOut.partnerU, ringAway.partnerU);
  const shiftV = moved(position, pinionOut.partnerV, ringAway.partnerV);
  return {
    u: shiftU.map((shift, index) => shift + (u[index] ?? 0)),
    v: shiftV.map((shift, index) => shift + (v[index] ?? 0)),
  };
}

/** Both movements' shares, added. */
function moved(position: Position, perPinionOut: Float64Array, perRingAway: Float64Array): Float64Array {
  const [out, away]: readonly [number, number] = [position.pinionOut, position.ringAway];
  return perPinionOut.map((per, index) => out * per + away * (perRingAway[index] ?? 0));
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
