import { squareToTooth } from '../mesh/evaluate.ts';
import { describeSet, type MeshModel } from '../mesh/meshModel.ts';
import type { Flank } from '../mark/mark.ts';
import { ok, type Result } from '../../basics/result.ts';
import type { Axle } from './guess.ts';
import type { BacklashBasis, PlanInput, Side } from './input.ts';
import { type QuickFlank, quickFlankOf, type QuickMark, quickMark } from './quickFlank.ts';

/** A gear set as the plan sees it: both flanks by what they do, and how its backlash is read. */
export interface Sight {
  readonly model: MeshModel;
  readonly flanks: Readonly<Record<Side, QuickFlank>>;
  /** Reading (mm) for each radian the ring gear can turn, on the basis of the limits. */
  readonly backlashPerTurn: number;
  /** Whether anything is said along the face: only with a known cut. */
  readonly lengthwise: boolean;
  /** The same set cut the other way, where nobody told the cut: both are weighed. */
  readonly otherwise?: Sight;
}

/** Where an assembly stands, counted from the first trial (mm). */
export interface Place {
  readonly pinionOut: number;
  readonly ringAway: number;
}

export function sightOf(input: PlanInput): Result<Sight> {
  const told = sightOfCut(input, input.set.cut);
  if (!told.ok || told.value.lengthwise) return told;
  const otherwise = sightOfCut(input, 'face-hobbed');
  // What no cutter of the other kind could have cut was cut by this one.
  return otherwise.ok ? ok({ ...told.value, otherwise: otherwise.value }) : told;
}

function sightOfCut(input: PlanInput, cut: PlanInput['set']['cut']): Result<Sight> {
  const { driveFlank, cut: _cut, ...set } = input.set;
  const described = describeSet({ ...set, ...(cut === undefined ? {} : { cut }) });
  if (!described.ok) return described;
  const model = described.value;
  const pitch = (2 * Math.PI) / model.set.ringTeeth;
  const quick = (flank: Flank): QuickFlank => quickFlankOf(model.flanks[flank].grid, model.flanks[flank].lever, pitch);
  return ok({
    model,
    flanks: { drive: quick(driveFlank), coast: quick(otherFlank(driveFlank)) },
    backlashPerTurn: readingPerTurn(model, input.backlashBasis, driveFlank),
    lengthwise: model.set.cutKnown,
  });
}

export const otherFlank = (flank: Flank): Flank => (flank === 'convex' ? 'concave' : 'convex');

/** An indicator along the rotation reads turn × radius; one square to the tooth, less by that tooth flank's angles. */
export function readingPerTurn(model: MeshModel, basis: BacklashBasis, touched: Flank): number {
  const { ringMeanRadius, ringMeanCone, ringOuterCone } = model.blank;
  const heel = (ringMeanRadius * ringOuterCone) / ringMeanCone;
  const given = radiusOf(basis.at, heel);
  if (basis.direction === 'along-rotation') return given;
  const nearHeel = given > (ringMeanRadius + heel) / 2;
  return given * squareToTooth(model.flanks[touched], nearHeel ? 'heel' : 'mean');
}

function radiusOf(at: BacklashBasis['at'], heel: number): number {
  if (at === 'heel') return heel;
  return typeof at === 'number' ? at : at.radius_mm;
}

/** The mark that a guessed axle would show on one side at a place, in its usual film or another (mm). */
export const markAt = (axle: Axle, side: Side, place: Place, film = axle.film): QuickMark =>
  quickMark(axle.flanks[side], axle.relief[side], {
    pinionOut: axle.pinionOut + place.pinionOut,
    ringAway: axle.ringAway + place.ringAway,
    film,
    rolled: axle.rolled,
  });

/**
 * A mark as it is read on this axle: sizes as its reader takes them, and the edges with them. A mark read shorter by a
 * factor ends so much sooner, and because the gap grows with the square of the distance, so much sooner squared does
 * the film run out before an edge.
 */
export function asRead(mark: QuickMark, { sizes }: Axle): QuickMark {
  const [toe, heel, crown, root] = mark.edgeGaps;
  const [along, up] = [sizes.length ** 2, sizes.height ** 2];
  return {
    ...mark,
    length: mark.length * sizes.length,
    height: mark.height * sizes.height,
    edgeGaps: [toe / along, heel / along, crown / up, root / up],
  };
}

/** Mean backlash that a guessed axle would read at a place (mm), from the marks' own touches. */
export const backlashAt = (sight: Sight, axle: Axle, place: Place, turns: number): number =>
  axle.backlash +
  sight.backlashPerTurn * turns +
  axle.perPinionOut * place.pinionOut +
  axle.perRingAway * place.ringAway;
