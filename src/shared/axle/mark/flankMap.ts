import { fail, ok, type Problem, type Result } from '../../basics/result.ts';
import { carry, squareTo } from './homography.ts';
import type { Edge } from './mark.ts';
import type { FlankCorners, Pixel } from './photo.ts';

/**
 * How far each edge is bent at its middle, as a fraction of the flank across it: crown and root towards the crown,
 * toe and heel towards the heel. A flank is an arc, and seen from above an arc looks bent.
 */
export type Bends = Readonly<Record<Edge, number>>;
export const straight: Bends = { toe: 0, heel: 0, crown: 0, root: 0 };

/** From places on the flank to pixels. */
export interface FlankMap {
  readonly corners: FlankCorners;
  readonly bends: Bends;
  /** How much farther crown and root are bent towards the heel than towards the toe: {@link archAt}. */
  readonly skew: number;
  /** Whether the cut said how much of the narrowing is the tooth's own. */
  readonly depthTold: boolean;
  /** Height at the toe over height at the heel, as far as it is the tooth's own and not the camera's: {@link ownNarrowing}. */
  readonly narrowing: number;
  /**
   * @param along from toe (0) to heel (1)
   * @param up from root (0) to crown (1)
   */
  toPhoto(along: number, up: number): Pixel;
}

/** Whether the tooth itself is as high at the toe as at the heel. */
export type Depth = 'uniform' | 'tapered';

/**
 * What a cut says of the tooth's depth: face-hobbed teeth have the same from toe to heel, face-milled ones are lower at the
 * toe (common practice, and how the cutters move).
 */
export const depthOfCut = (cut: 'face-milled' | 'face-hobbed'): Depth =>
  cut === 'face-hobbed' ? 'uniform' : 'tapered';

interface MapOptions {
  /** How much farther crown and root are bent towards the heel than towards the toe. */
  readonly skew?: number;
  readonly depth?: Depth | undefined;
}

/**
 * Lays a flank on its four corners.
 * @returns the map, or a problem naming the corners where they make no flank.
 */
export function mapFlank(
  corners: FlankCorners,
  bends: Bends = straight,
  { skew = 0, depth }: MapOptions = {},
): Result<FlankMap> {
  const plane = squareTo(corners);
  if (plane === undefined || !convex(corners)) return fail(noFlank);
  const own = ownShare(corners, depth);
  const [face, height] = middleVectors(corners);
  const lean = leanOf(corners, bends, skew);
  // What of the skew is left to the arc itself: the rest is the lean, which carries the top of an even arc aside as well.
  const ownSkew = skew - 4 * middleBend(bends) * lean(middleBend(bends));
  const toPhoto = (along: number, up: number): Pixel => {
    const flat = carry(plane, along, up);
    const even = between(corners, along, up);
    const arch = archAt(along, bends.root + up * (bends.crown - bends.root), ownSkew);
    const side = 4 * up * (1 - up) * (bends.toe + along * (bends.heel - bends.toe)) + lean(arch);
    return [
      flat[0] + own * (even[0] - flat[0]) + arch * height[0] + side * face[0],
      flat[1] + own * (even[1] - flat[1]) + arch * height[1] + side * face[1],
    ];
  };
  return ok({
    corners,
    bends,
    skew,
    depthTold: depth !== undefined,
    narrowing: Math.exp(own * seenNarrowing(corners)),
    toPhoto,
  });
}

/**
 * How far a long edge lies from the straight line between its ends. An arc seen in perspective, or one that is curved more
 * at one end, has its top off the middle.
 */
export const archAt = (along: number, bend: number, skew: number): number =>
  4 * along * (1 - along) * (bend + skew * (2 * along - 1));

const noFlank: Problem = {
  kind: 'corners',
  field: 'corners',
  sentence: 'The four corners do not go round a flank.',
  remedy: 'Tap toe-root, toe-crown, heel-crown and heel-root in this order.',
};

/** All four turn the same way. */
function convex([a, b, c, d]: FlankCorners): boolean {
  const turns = [turn(a, b, c), turn(b, c, d), turn(c, d, a), turn(d, a, b)];
  return turns.every((one) => one > 0) || turns.every((one) => one < 0);
}

const turn = (a: Pixel, b: Pixel, c: Pixel): number => (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);

export const apart = (p: Pixel, q: Pixel): number => Math.hypot(p[0] - q[0], p[1] - q[1]);

/** The same share of every line between the four corners: what a far camera sees of a tapered or twisted tooth. */
function between([a, b, c, d]: FlankCorners, along: number, up: number): Pixel {
  const at = (axis: 0 | 1) =>
    (1 - along) * ((1 - up) * a[axis] + up * b[axis]) + along * ((1 - up) * d[axis] + up * c[axis]);
  return [at(0), at(1)];
}

/** Toe to heel and root to crown through the middle, in pixels. */
export function middleVectors([a, b, c, d]: FlankCorners): readonly [Pixel, Pixel] {
  return [
    [(c[0] + d[0] - a[0] - b[0]) / 2, (c[1] + d[1] - a[1] - b[1]) / 2],
    [(b[0] + c[0] - a[0] - d[0]) / 2, (b[1] + c[1] - a[1] - d[1]) / 2],
  ];
}

/**
 * The map in which one long edge, as it would be unbent, is moved square by square along the flank's height: bending
 * an edge moves it so. Perspective goes on beyond the flank, a bend does not.
 */
export function besideEdge(map: FlankMap, edge: 'crown' | 'root'): FlankMap {
  const [, height] = middleVectors(map.corners);
  const home = edge === 'crown' ? 1 : 0;
  return {
    ...map,
    toPhoto: (along, up) => {
      const [x, y] = map.toPhoto(along, home);
      return [x + (up - home) * height[0], y + (up - home) * height[1]];
    },
  };
}

const seenNarrowing = ([a, b, c, d]: FlankCorners): number => Math.log(apart(a, b) / apart(d, c));

/**
 * A flank that looks lower at the toe than at the heel is nearer at the heel, or is lower at the toe, or is twisted:
 * four corners cannot tell. From a hand's distance a camera makes little of it, so a small difference is taken as
 * perspective, a large one as the tooth's own, and one in between as something of both, unless the cut says (derived: 31 mm of face
 * turned by 20° at 150 mm look 7 % lower at one end; tapered or twisted teeth 20 to 40 %).
 * @returns 0 all perspective … 1 all the tooth's own.
 */
function ownShare(corners: FlankCorners, depth: Depth | undefined): number {
  const seen = seenNarrowing(corners);
  if (depth === 'uniform') return 0;
  if (depth === 'tapered') return seen < 0 ? Math.max(seen, mostTaper) / seen : 0;
  const [small, large] = [0.03, 0.12];
  return Math.min(1, Math.max(0, (Math.abs(seen) - small) / (large - small)));
}

/** A toe is hardly ever lower than this share of the heel (own assumption), as a logarithm. */
const mostTaper = Math.log(0.6);

const middleBend = ({ crown, root }: Bends): number => (crown + root) / 2;

/**
 * How far the skew of an arc says that its middle lies towards the heel, in shares of the face. An even arc that leans by a
 * share l of the face looks skewed by 4·bend·l (derived, to first order); what is seen of the skew is known only so well and
 * need not be the lean's, so that a part of it counts, and less where there is hardly a bend to lean (both own choice).
 */
export function leanBySkew(bend: number, skew: number): number {
  return (4 * bend * skew) / (16 * bend * bend + 1);
}
const trusted = 0.4;

/**
 * How far a bent flank's middle lies towards the heel for each bend of it. An arc bulges along the flank's normal; seen
 * from one end the bulge leans to the other, and how much the photo is taken from one end shows in how far the ends of
 * the tooth look out of square. They are so by themselves: they follow the gear's cones, not the tooth (derived: the
 * tangents of pressure and spiral angle, 0.36 × 0.5, over the cosine of a usual look from above).
 */
function leanOf(corners: FlankCorners, bends: Bends, skew: number): (bend: number) => number {
  const [face, height] = middleVectors(corners);
  const area = Math.abs(face[0] * height[1] - face[1] * height[0]);
  const outOfSquare = (face[0] * height[0] + face[1] * height[1]) / area;
  const aspect = Math.hypot(...face) / Math.hypot(...height);
  const middle = middleBend(bends);
  const bySkew = middle === 0 ? 0 : (trusted * leanBySkew(middle, skew)) / middle;
  return (bend) => bend * ((-1.2 * (outOfSquare + 0.33 * Math.sign(bend))) / aspect + bySkew);
}

/**
 * The bend that takes an edge through a point dragged to: the handle in the middle of each edge.
 * Near the ends of the edge a point says nothing about its bend, and there the answer is 0.
 */
export function bendThrough(corners: FlankCorners, edge: Edge, point: Pixel): number {
  const [face, height] = middleVectors(corners);
  const [a, b, c, d] = corners;
  const ends = { crown: [b, c], root: [a, d], toe: [a, b], heel: [d, c] } as const;
  const [from, to] = ends[edge];
  const across = edge === 'crown' || edge === 'root' ? height : face;
  const along: Pixel = [to[0] - from[0], to[1] - from[1]];
  const off: Pixel = [point[0] - from[0], point[1] - from[1]];
  const size = along[0] * across[1] - along[1] * across[0];
  const share = (off[0] * across[1] - off[1] * across[0]) / size;
  const arch = 4 * share * (1 - share);
  return arch < 0.2 ? 0 : (along[0] * off[1] - along[1] * off[0]) / size / arch;
}
