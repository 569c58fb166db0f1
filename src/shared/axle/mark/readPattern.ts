import type { Field } from '../../basics/field.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { centreUncertainty } from './centreUncertainty.ts';
import { describeMask, type MarkWithArea, momentsOf, type Proportions } from './describeMask.ts';
import { faintness, findLongEdges, type LongEdges } from './flankEdges.ts';
import { apart, type Bends, type FlankMap, mapFlank, straight } from './flankMap.ts';
import type { FlankCorners, Photo } from './photo.ts';
import { cleaned, type Mask, regions } from './regions.ts';
import { separate, type Separation } from './separate.ts';
import { settleEdges } from './settleEdges.ts';
import { solidity } from './solidity.ts';
import { type FlankRaster, straighten } from './straighten.ts';
import { unreadable, type Unreadable } from './unreadable.ts';

/** How finely a flank is laid straight: about a sixth of a millimetre on a common axle. */
export const flankStretch = { columns: 200, rows: 72, low: 0, high: 1, samples: 4 } as const;

/** What was read off one flank in a photo. */
export interface PatternReading {
  readonly mark: MarkWithArea;
  /** What the reader should know, in plain sentences. */
  readonly warnings: readonly string[];
  readonly map: FlankMap;
  readonly raster: FlankRaster;
  readonly separation: Separation;
  readonly mask: Mask;
}

export interface ReadOptions {
  /** Edges bent by hand; without them crown and root are looked for in the photo. */
  readonly bends?: Bends;
  /** Face width over tooth height, where the gear set is known; else taken from the photo. */
  readonly faceOverHeight?: number;
}

/**
 * Reads the mark on one flank of a photo.
 * @param corners toe-root, toe-crown, heel-crown, heel-root in pixels of the upright photo; either turn.
 * @returns the mark with its uncertainty, or why there is none: an unreadable photo gives no answer, not a wrong one.
 */
export function readPattern(
  photo: Photo,
  corners: FlankCorners,
  options: ReadOptions = {},
): Result<PatternReading, Unreadable> {
  const hidden = beforeLooking(photo, corners);
  if (hidden !== undefined) return fail(unreadable(hidden));
  const plain = mapFlank(corners);
  if (!plain.ok) return fail(unreadable('corners'));
  const edges = findLongEdges(photo, plain.value);
  if ((edges.softness ?? 0) > softest) return fail(unreadable('out-of-focus'));
  const found =
    options.bends === undefined ? mapFlank(corners, bendsFrom(edges), edges.skew) : mapFlank(corners, options.bends);
  if (!found.ok) return fail(unreadable('corners'));
  const better = options.bends === undefined ? settleEdges(photo, found.value) : found.value;
  const map = mapFlank(better.corners, better.bends, better.skew);
  if (!map.ok) return fail(unreadable('corners'));
  const raster = straighten(photo, map.value, flankStretch);
  const separation = separate(raster);
  if (separation === undefined) return fail(unreadable('no-mark'));
  const mask = cutOut(raster, separation, 0.5);
  const why = whyNot(raster, separation, mask);
  if (why !== undefined) return fail(unreadable(why));
  const reading = { map: map.value, raster, separation, mask };
  return ok({
    ...reading,
    mark: markOf(reading, options.bends === undefined ? faintness(edges) : 0, options.faceOverHeight),
    warnings: warningsOf(reading, edges, options),
  });
}

/** Width of an edge, as a fraction of the flank's height, beyond which a photo is out of focus. */
const softest = 0.13;

function beforeLooking({ width, height }: Photo, corners: FlankCorners): Unreadable | undefined {
  const [a, b, c, d] = corners;
  if (corners.some(([x, y]) => x < 0 || y < 0 || x > width - 1 || y > height - 1)) return 'outside-photo';
  const small = Math.min(apart(a, d), apart(b, c)) < 60 || Math.min(apart(a, b), apart(d, c)) < 14;
  return small ? 'too-small' : undefined;
}

const bendsFrom = ({ crown, root }: LongEdges): Bends => ({
  ...straight,
  crown: crown ?? root ?? 0,
  root: root ?? crown ?? 0,
});

/** The mark at a bareness, without spots and holes. */
function cutOut(raster: FlankRaster, { bareness }: Separation, threshold: number): Mask {
  return cleaned(
    bareness.where((value) => value > threshold),
    raster,
  );
}

/** Difference ΔE*ab below which no eye sees a mark either. */
const faintest = 5;
/**
 * Share of the bareness that two heaps explain, below which nothing but unevenness was told apart: rendered marks of all
 * colours, also of a world that was built by other beliefs, leave 0.84 and more, films without a mark 0.79 and less.
 */
const leastTwo = 0.81;

/** Own choice: a mark is a place on the flank; where more than this is bare, it was never painted and glare passes for compound. */
const largest = 0.75;

function whyNot(raster: FlankRaster, separation: Separation, mask: Mask): Unreadable | undefined {
  const cells = mask.length;
  const share = (of: Uint8Array) => of.reduce((sum, one) => sum + one, 0) / cells;
  if (share(raster.blind) > 0.3) return 'glare';
  const area = share(mask);
  if (separation.contrast < faintest || separation.explained < leastTwo || area < 0.01) return 'no-mark';
  if (area > largest) return 'no-compound';
  if (separation.darkEnd > 0.06) return 'shadow';
  return hasNoShape(raster, separation, mask, area) ? 'smeared' : undefined;
}

/** A mark is one place: most of what is bare belongs to it, and most of the flank is either bare or not. */
function hasNoShape(raster: FlankRaster, { bareness }: Separation, mask: Mask, area: number): boolean {
  const bare = bareness.values.reduce((sum, value) => sum + (value > 0.5 ? 1 : 0), 0) / mask.length;
  const [main] = regions(mask, raster, 1);
  if (main === undefined) return true;
  const share = main.cells.length / mask.length;
  return share < 0.7 * Math.max(bare, area) || solidity(main, raster) < leastSolid;
}

/** Own choice: rendered marks fill 0.85 and more of their hull, glare may bite a piece out, smears fill less. */
const leastSolid = 0.75;

type Read = Pick<PatternReading, 'map' | 'raster' | 'separation' | 'mask'>;

function markOf(read: Read, faint: number, faceOverHeight?: number): MarkWithArea {
  const { map, raster, separation, mask } = read;
  const proportions = proportionsOf(map, faceOverHeight);
  const mark = describeMask({ grid: raster, mask, bareness: separation.bareness }, proportions);
  const centreAt = (threshold: number) => {
    const other = cutOut(raster, separation, threshold);
    return other.includes(1) ? momentsOf(other, raster, map.narrowing) : mark;
  };
  const u = centreUncertainty(map, mark, centreAt, faint);
  return { ...mark, U95: { heel: 2 * u.heel, crown: 2 * u.crown } };
}

/** Proportions as the photo shows them; seen from above a flank looks lower than it is. */
function proportionsOf(map: FlankMap, known?: number): Proportions {
  const [a, b, c, d] = map.corners;
  const seen = (apart(a, d) + apart(b, c)) / (apart(a, b) + apart(d, c));
  return { faceOverHeight: known ?? seen, narrowing: map.narrowing };
}

function warningsOf(
  { raster, map }: Read,
  edges: LongEdges,
  { bends, faceOverHeight }: ReadOptions,
): readonly string[] {
  const blind = raster.blind.reduce((sum, one) => sum + one, 0) / raster.blind.length;
  const said: (string | false)[] = [
    blind > 0.02 &&
      `Mirrored light hides ${Math.round(100 * blind)} % of the flank; what lies under it was taken from around it.`,
    bends === undefined &&
      edges.crown === undefined &&
      'The long edges of the flank do not show; they were taken as straight.',
    bends === undefined &&
      edges.crown !== undefined &&
      faintness(edges) > 0.5 &&
      'The long edges of the flank hardly show: see whether the outline lies on the tooth, or bend the edges by hand.',
    bends === undefined &&
      edges.doubtful &&
      'Another line in the photo could be the edge of the flank: see whether the outline lies on the tooth.',
    Math.abs(Math.log(map.narrowing)) > 0.3 &&
      'The flank narrows much in the photo; along the face the reading is less sure.',
    faceOverHeight === undefined &&
      'The slant is as the photo shows it; seen from above, a flank looks lower and its slant smaller.',
  ];
  return said.filter((one) => one !== false);
}

/** What a brush did: a round touch at a place of the flank, radius as a fraction of the face width. */
export interface BrushTouch {
  readonly along: number;
  readonly up: number;
  readonly radius: number;
  readonly to: 'mark' | 'compound';
}

/** The reading with the mask corrected by hand; its centre, extents, edges and uncertainty follow the corrected mask. */
export function corrected(
  reading: PatternReading,
  touches: readonly BrushTouch[],
  faceOverHeight?: number,
): Result<PatternReading, Unreadable> {
  const mask = Uint8Array.from(reading.mask);
  const bareness = reading.separation.bareness.map((value) => value);
  const proportions = proportionsOf(reading.map, faceOverHeight);
  for (const touch of touches) paint(mask, bareness, touch, proportions.faceOverHeight);
  if (!mask.includes(1)) return fail(unreadable('no-mark'));
  const separation = { ...reading.separation, bareness };
  const mark = describeMask({ grid: reading.raster, mask, bareness }, proportions);
  return ok({
    ...reading,
    separation,
    mask,
    mark: reading.mark.U95 === undefined ? mark : { ...mark, U95: reading.mark.U95 },
  });
}

function paint(mask: Mask, bareness: Field, touch: BrushTouch, faceOverHeight: number): void {
  const { columns, rows } = flankStretch;
  for (let cell = 0; cell < mask.length; cell += 1) {
    const column = cell % columns;
    const along = (column + 0.5) / columns - touch.along;
    const up = (((cell - column) / columns + 0.5) / rows - touch.up) / faceOverHeight;
    if (Math.hypot(along, up) > touch.radius) continue;
    mask[cell] = touch.to === 'mark' ? 1 : 0;
    bareness.values[cell] = touch.to === 'mark' ? 1 : 0;
  }
}
