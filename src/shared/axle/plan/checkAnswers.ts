import { evaluate } from '../mesh/evaluate.ts';
import type { FlankModel } from '../mesh/flankModel.ts';
import { middlePoint } from '../mesh/flankGrid.ts';
import type { MeshModel } from '../mesh/meshModel.ts';
import type { ShimMovement } from '../mesh/rates.ts';
import { mm } from '../../basics/quantity.ts';
import type { PlanInput, Side } from './input.ts';
import { otherFlank, readingPerTurn } from './sight.ts';

/** A movement between two trials (mm). */
export type Move = Readonly<Record<ShimMovement, number>>;

/** What a flank's mark does, to first order: the tilt of the gap by size and film, and the relief that travels along. */
export interface MarkAnswer {
  /** Times (half extent as a share)² / film (mm): share of the flank for each mm moved. */
  readonly tilt: Move;
  /** Share of the flank for each mm moved, whatever the film. */
  readonly relief: Move;
}

/** What the set's geometry says about every figure that is read, for each mm moved. */
export interface Answers {
  /** On the basis of the readings, where the marks usually lie (mm for each mm). */
  readonly backlash: Move;
  /** The same reading for a mm along the rotation at the heel: what turns bounds of that basis into this one. */
  readonly ofHeelReading: number;
  readonly marks: Readonly<Record<Side, { readonly crown: MarkAnswer; readonly heel: MarkAnswer }>>;
  /** Whether anything is known along the face. */
  readonly lengthwise: boolean;
}

const probe_mm = 0.05;

export function answersOf(input: PlanInput, model: MeshModel): Answers {
  const { driveFlank } = input.set;
  const { flanks, blank, visible } = model;
  const perTurn = readingPerTurn(model, input.backlashBasis, driveFlank);
  const turn = (pinionOut: number, ringAway: number): number =>
    evaluate(model, { pinionOut: mm(pinionOut), ringAway: mm(ringAway) }).backlash.turn / probe_mm;
  const marks = (flank: FlankModel) => ({
    crown: markAnswer(flank, 'slopeV', 'partnerV', visible.height),
    heel: markAnswer(flank, 'slopeU', 'partnerU', visible.faceWidth),
  });
  return {
    backlash: { pinionOut: turn(probe_mm, 0) * perTurn, ringAway: turn(0, probe_mm) * perTurn },
    ofHeelReading: (perTurn * blank.ringMeanCone) / (blank.ringMeanRadius * blank.ringOuterCone),
    marks: { drive: marks(flanks[driveFlank]), coast: marks(flanks[otherFlank(driveFlank)]) },
    lengthwise: model.set.cutKnown,
  };
}

/** −H⁻¹g with the curvature 2·film/half², and the relief's own travel; both as shares of the extent. */
function markAnswer(
  flank: FlankModel,
  slope: 'slopeU' | 'slopeV',
  partner: 'partnerU' | 'partnerV',
  extent_mm: number,
): MarkAnswer {
  const tilt = (movement: ShimMovement): number => (-flank.atMidFlank[movement][slope] * extent_mm) / 2;
  const relief = (movement: ShimMovement): number => -(flank.grid[movement][partner][middlePoint] ?? 0) / extent_mm;
  return {
    tilt: { pinionOut: tilt('pinionOut'), ringAway: tilt('ringAway') },
    relief: { pinionOut: relief('pinionOut'), ringAway: relief('ringAway') },
  };
}

/** How far a mark goes (share of the flank) for a movement, its half extent (share) and its film (mm). */
export function goes({ tilt, relief }: MarkAnswer, move: Move, half: number, film: number): number {
  const by = (per: Move): number => per.pinionOut * move.pinionOut + per.ringAway * move.ringAway;
  return (by(tilt) * half * half) / film + by(relief);
}
