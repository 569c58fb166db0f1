import { Field } from '../../basics/field.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { centreUncertainty } from './centreUncertainty.ts';
import { describeMask, type MarkWithArea } from './describeMask.ts';
import { flankStretch, layFlank, proportionsOf, type ReadOptions, warningsOf } from './layFlank.ts';
import type { FlankCorners, Photo } from './photo.ts';
import type { PatternReading } from './readPattern.ts';
import { type Mask, regions } from './regions.ts';
import type { FlankRaster } from './straighten.ts';
import { unreadable, type Unreadable } from './unreadable.ts';

/** What a brush did: a round touch at a place of the flank, radius as a fraction of the face width. */
export interface BrushTouch {
  readonly along: number;
  readonly up: number;
  readonly radius: number;
  readonly to: 'mark' | 'compound';
}

/** A mark outlined by hand on a flank laid straight. */
export type Outlined = Omit<PatternReading, 'separation'>;

/**
 * Expanded uncertainty of the centre of a mark that a hand outlined, as fractions of face and height: the same as of a
 * mark drawn by hand (own assumption; nobody has measured it).
 */
export const handU95 = { heel: 0.06, crown: 0.08 } as const;

const byHand = 'Outlined by hand: where the mark lies is less sure than where it was read.';
const partlyByHand = 'Changed by hand: where the mark lies is less sure the more was changed.';

/**
 * The mark that a hand outlined on a flank where nothing was read: the brush begins empty. A ring is filled. Taken also
 * where a photo is too dull, too blurred or too bright for reading by machine: a person may see more.
 */
export function outlined(
  photo: Photo,
  corners: FlankCorners,
  touches: readonly BrushTouch[],
  options: ReadOptions = {},
): Result<Outlined, Unreadable> {
  const laid = layFlank(photo, corners, options);
  if (!laid.ok) return laid;
  const { map, raster } = laid.value;
  const proportions = proportionsOf(map, options.faceOverHeight);
  const mask = ringFilled(
    painted(new Uint8Array(flankStretch.columns * flankStretch.rows), touches, proportions.faceOverHeight),
  );
  if (!mask.includes(1)) return fail(unreadable('not-outlined'));
  const mark = describeMask(outlineOf(mask), proportions);
  const u = centreUncertainty(map, mark, () => mark, laid.value.faintness);
  const U95 = {
    heel: Math.hypot(2 * u.heel, handU95.heel),
    crown: Math.hypot(2 * u.crown, handU95.crown),
  };
  return ok({ map, raster, mask, mark: { ...mark, U95 }, warnings: [byHand, ...warningsOf(laid.value, options)] });
}

/**
 * The reading with its mask changed by hand; its centre, extents and edges follow the changed mask. What the hand changed
 * has the doubt of a hand: in the share of the mark that it changed, and as far as it moved the centre.
 */
export function corrected(
  reading: PatternReading,
  touches: readonly BrushTouch[],
  faceOverHeight?: number,
): Result<PatternReading, Unreadable> {
  const proportions = proportionsOf(reading.map, faceOverHeight);
  const mask = painted(Uint8Array.from(reading.mask), touches, proportions.faceOverHeight);
  if (!mask.includes(1)) return fail(unreadable('no-mark'));
  const bareness = reading.separation.bareness.map((value, cell) =>
    mask[cell] === reading.mask[cell] ? value : (mask[cell] ?? value),
  );
  const described = describeMask({ grid: reading.raster, mask, bareness }, proportions);
  const share = changedShare(reading.mask, mask);
  if (share === 0) return ok(reading);
  const mark = { ...described, U95: changedU95(reading.mark, described, share) };
  return ok({
    ...reading,
    separation: { ...reading.separation, bareness },
    mask,
    mark,
    warnings: [partlyByHand, ...reading.warnings],
  });
}

/** Cells that are no longer what they were, over those of the mark before or after, whichever is larger; at most 1. */
function changedShare(before: Mask, after: Mask): number {
  let [changed, old, now] = [0, 0, 0];
  after.forEach((one, cell) => {
    old += before[cell] ?? 0;
    now += one;
    if (one !== before[cell]) changed += 1;
  });
  return Math.min(1, changed / Math.max(1, old, now));
}

function changedU95(
  before: MarkWithArea,
  after: MarkWithArea,
  share: number,
): { readonly heel: number; readonly crown: number } {
  const along = (which: 'heel' | 'crown') =>
    Math.hypot(before.U95?.[which] ?? handU95[which], share * handU95[which], after[which] - before[which]);
  return { heel: along('heel'), crown: along('crown') };
}

function painted(mask: Mask, touches: readonly BrushTouch[], faceOverHeight: number): Mask {
  const { columns, rows } = flankStretch;
  for (const touch of touches) {
    for (let cell = 0; cell < mask.length; cell += 1) {
      const column = cell % columns;
      const along = (column + 0.5) / columns - touch.along;
      const up = (((cell - column) / columns + 0.5) / rows - touch.up) / faceOverHeight;
      if (Math.hypot(along, up) <= touch.radius) mask[cell] = touch.to === 'mark' ? 1 : 0;
    }
  }
  return mask;
}

/** What a ring encloses belongs to it. */
function ringFilled(mask: Mask): Mask {
  for (const { cells, touchesEdge } of regions(mask, flankStretch, 0)) {
    if (!touchesEdge) for (const cell of cells) mask[cell] = 1;
  }
  return mask;
}

/** A hand's line is sharp: what is inside is bare. */
function outlineOf(mask: Mask): {
  readonly grid: Pick<FlankRaster, 'columns' | 'rows'>;
  readonly mask: Mask;
  readonly bareness: Field;
} {
  const { columns, rows } = flankStretch;
  return { grid: { columns, rows }, mask, bareness: new Field(columns, rows, Float32Array.from(mask)) };
}
