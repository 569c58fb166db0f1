import { fail, ok, type Result } from '../../basics/result.ts';
import type { Proportions } from './describeMask.ts';
import { faintness, findLongEdges, type LongEdges } from './flankEdges.ts';
import { apart, type Bends, type Depth, type FlankMap, mapFlank, straight } from './flankMap.ts';
import type { FlankCorners, Photo } from './photo.ts';
import { settleEdges } from './settleEdges.ts';
import { type FlankRaster, straighten } from './straighten.ts';
import { unreadable, type Unreadable } from './unreadable.ts';

/** How finely a flank is laid straight: about a sixth of a millimetre on a common axle. */
export const flankStretch = { columns: 200, rows: 72, low: 0, high: 1, samples: 4 } as const;

export interface ReadOptions {
  /** Edges bent by hand; without them crown and root are looked for in the photo. */
  readonly bends?: Bends | undefined;
  /** Whether the tooth is as high at the toe as at the heel, where the cut is known: {@link depthOfCut}. */
  readonly depth?: Depth | undefined;
  /** Face width over tooth height, where the gear set is known; else taken from the photo. */
  readonly faceOverHeight?: number;
}

/** A flank found in a photo and laid straight, before anything is read off it. */
interface LaidFlank {
  readonly map: FlankMap;
  readonly raster: FlankRaster;
  readonly edges: LongEdges;
  /** How doubtful the long edges are, 0…1; 0 where they were bent by hand. */
  readonly faintness: number;
}

/** Lays the flank between four corners straight; refused where corners make no flank, or too small a one. */
export function layFlank(
  photo: Photo,
  corners: FlankCorners,
  { bends, depth }: ReadOptions,
): Result<LaidFlank, Unreadable> {
  const hidden = beforeLooking(photo, corners) ?? (bends === undefined ? tooFlat(corners) : undefined);
  if (hidden !== undefined) return fail(unreadable(hidden));
  const plain = mapFlank(corners);
  if (!plain.ok) return fail(unreadable('corners'));
  const edges = findLongEdges(photo, plain.value);
  const found =
    bends === undefined
      ? mapFlank(corners, bendsFrom(edges), { depth, skew: edges.skew })
      : mapFlank(corners, bends, { depth });
  if (!found.ok) return fail(unreadable('corners'));
  const better = bends === undefined ? settleEdges(photo, found.value) : found.value;
  const map = mapFlank(better.corners, better.bends, { depth, skew: better.skew });
  if (!map.ok) return fail(unreadable('corners'));
  const raster = straighten(photo, map.value, flankStretch);
  return ok({ map: map.value, raster, edges, faintness: bends === undefined ? faintness(edges) : 0 });
}

function beforeLooking({ width, height }: Photo, corners: FlankCorners): Unreadable | undefined {
  const [a, b, c, d] = corners;
  if (corners.some(([x, y]) => x < 0 || y < 0 || x > width - 1 || y > height - 1)) return 'outside-photo';
  const small = Math.min(apart(a, d), apart(b, c)) < 60 || Math.min(apart(a, b), apart(d, c)) < 14;
  return small ? 'too-small' : undefined;
}

/**
 * Seen nearly along itself a flank is bent by more than its height, and its arcs run off what is looked at. Flanks are three
 * to five times as long as high, and look up to nine times so in photos that can be read (from rendered photographs).
 */
const mostAspect = 9.5;
const tooFlat = ([a, b, c, d]: FlankCorners): Unreadable | undefined =>
  apart(a, d) + apart(b, c) > mostAspect * (apart(a, b) + apart(d, c)) ? 'too-flat' : undefined;

const bendsFrom = ({ crown, root }: LongEdges): Bends => ({
  ...straight,
  crown: crown ?? root ?? 0,
  root: root ?? crown ?? 0,
});

/** Proportions as the photo shows them; seen from above a flank looks lower than it is. */
export function proportionsOf(map: FlankMap, known?: number): Proportions {
  const [a, b, c, d] = map.corners;
  const seen = (apart(a, d) + apart(b, c)) / (apart(a, b) + apart(d, c));
  return { faceOverHeight: known ?? seen, narrowing: map.narrowing };
}

/** What the reader should know of how the flank was laid, in plain sentences. */
export function warningsOf(
  { raster, map, edges }: LaidFlank,
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
