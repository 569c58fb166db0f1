import { ok, type Result } from '../../basics/result.ts';
import { type Length, mm } from '../../basics/quantity.ts';
import { type Flank, flankNames } from '../mark/mark.ts';
import { type Blank, spiralBevelBlank } from './blank.ts';
import { type CompleteSet, completeSet } from './completeSet.ts';
import { curvatureFromMark, type EaseOff } from './easeoff.ts';
import { type FlankModel, flankModelOf } from './flankModel.ts';
import { frameOf } from './frame.ts';
import { hypoidBlank } from './hypoidBlank.ts';
import type { SetInput } from './input.ts';
import { type VisibleFlank, visibleFlankOf } from './visibleFlank.ts';

/** A gear set as far as it can be known from what was read off its parts, ready to be asked about movements. */
export interface MeshModel {
  readonly set: CompleteSet;
  readonly blank: Blank;
  readonly visible: VisibleFlank;
  readonly flanks: Readonly<Record<Flank, FlankModel>>;
  /** Film the assumed ease-off belongs to (mm); until paint has taught another. */
  readonly film: Length;
  /** Every default that was used, the offset first; see {@link completeSet}. */
  readonly assumed: readonly string[];
}

/** Before any paint: a film of 10 µm and a mark of 0.55 × 0.7 of the flank (assumed, then learnt). */
const usualFilm: Length = mm(0.01);
const usualMark = { length: 0.55, height: 0.7 };

/**
 * Builds the model of a set: pitch cones, cut flanks, mesh condition at every point of both flanks.
 * @returns a Problem that names the field where no such set can exist.
 */
export function describeSet(input: SetInput): Result<MeshModel> {
  const set = completeSet(input);
  const { blank, notes } = blankOf(set);
  const frame = frameOf(blank);
  const visible = visibleFlankOf(set, blank, input.flankHeight_mm === undefined ? undefined : mm(input.flankHeight_mm));
  const usual = usualEaseoff(visible);
  const modelOf = (flank: Flank): Result<FlankModel> =>
    flankModelOf(set, frame, visible, flank, input.easeoff?.[flank] ?? usual);
  const convex = modelOf('convex');
  if (!convex.ok) return convex;
  const concave = modelOf('concave');
  if (!concave.ok) return concave;
  const assumed = [
    ...set.assumed,
    ...(input.flankHeight_mm === undefined ? ['flankHeight_mm'] : []),
    ...(input.easeoff === undefined ? ['easeoff'] : []),
    ...notes,
  ];
  const flanks = { convex: convex.value, concave: concave.value };
  return ok({ set, blank, visible, flanks, film: usualFilm, assumed });
}

/** Spiral bevel cones without offset; else hypoid cones for the cutter, the default one counting as known. */
function blankOf(set: CompleteSet): { readonly blank: Blank; readonly notes: readonly string[] } {
  if (set.offset === 0) return { blank: spiralBevelBlank(set), notes: [] };
  const hypoid = hypoidBlank(set, set.cutterRadius);
  if (hypoid !== undefined) return { blank: hypoid, notes: [] };
  return { blank: spiralBevelBlank(set), notes: [ignoredOffset] };
}

/** Stands in `assumed` when an offset was given that no hypoid cones fit, and the set was treated as spiral bevel. */
export const ignoredOffset = 'offset_mm taken as 0';

/** The ease-off that would leave the usual mark with the usual film, apex at mid face and mid flank, no bias. */
function usualEaseoff(visible: VisibleFlank): EaseOff {
  return {
    a: curvatureFromMark(usualFilm, (usualMark.length * visible.faceWidth) / 2),
    b: 0,
    c: curvatureFromMark(usualFilm, (usualMark.height * visible.height) / 2),
  };
}

/** Both flanks' models, in one place to walk over. */
export const eachFlank = (model: MeshModel): readonly FlankModel[] => flankNames.map((flank) => model.flanks[flank]);
