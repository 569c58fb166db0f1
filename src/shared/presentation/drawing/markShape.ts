import type { EdgeContact, Mark } from '../../axle/mark/mark.ts';
import type { FlankPlace } from './flankShape.ts';

/**
 * The soft shape of a mark, as nested contours in flank fractions. Compound does not end in a line except where
 * an edge of the tooth cuts it off, so the contours shrink towards every clear or feathered side; on a hard side
 * all of them run over the edge together and are cut there.
 */
interface MarkContour {
  readonly outline: readonly FlankPlace[];
  readonly opacity: number;
}

/** Distances from the mark's centre to its four sides, in flank fractions, before slanting. */
interface Reach {
  readonly toe: number;
  readonly heel: number;
  readonly root: number;
  readonly crown: number;
}

const contourCount = 10;
/** The outermost contour is the thinnest film; each further one adds a little more. */
const outerOpacity = 0.07;
const innerOpacity = 0.17;
/** The innermost contour as a share of the outermost. */
const coreShare = 0.4;
/** How far over the edge a cut-off side is drawn before it is cut, as a share of the mark's extent. */
const overrun: Readonly<Record<EdgeContact, number>> = { clear: 0, feathered: 0.06, hard: 0.3 };

/** The contours from the outermost in; laid over each other they grow denser towards the middle. */
export function markContours(mark: Mark, aspect: number): readonly MarkContour[] {
  return Array.from({ length: contourCount }, (_, index) => {
    const inward = index / (contourCount - 1);
    const share = 1 - (1 - coreShare) * inward;
    const opacity = outerOpacity + (innerOpacity - outerOpacity) * inward;
    return { outline: outlineOf(mark, aspect, share), opacity };
  });
}

/**
 * The outer outline of a mark, cut at the flank's edges.
 * @param aspect drawn face width over drawn height, which turns the slant's angle into fractions.
 */
export const markOutline = (mark: Mark, aspect: number): readonly FlankPlace[] => outlineOf(mark, aspect, 1);

function outlineOf(mark: Mark, aspect: number, share: number): readonly FlankPlace[] {
  const reach = reachOf(mark, share);
  const shear = shearOf(mark, aspect);
  const squeeze = Math.sqrt(Math.max(0.1, 1 - (shear * mark.length) ** 2 / Math.max(mark.height ** 2, 1e-9)));
  const round = Array.from({ length: 48 }, (_, step) => (step / 48) * 2 * Math.PI);
  const outline = round.map((turn) => {
    const heel = softened(Math.cos(turn)) * (Math.cos(turn) > 0 ? reach.heel : reach.toe);
    const crown = softened(Math.sin(turn)) * (Math.sin(turn) > 0 ? reach.crown : reach.root) * squeeze;
    return { heel: mark.heel + heel, crown: mark.crown + crown + shear * heel };
  });
  return cutToFlank(outline);
}

/** A little fuller than an ellipse, as a rolled-out mark is. */
const softened = (value: number): number => Math.sign(value) * Math.abs(value) ** 0.85;

/** On a cut side the edge, not the middle, decides where the mark ends. */
function reachOf(mark: Mark, share: number): Reach {
  const side = (contact: EdgeContact, half: number, toEdge: number): number => {
    if (contact === 'clear') return half * share;
    const beyond = Math.max(0, toEdge) + 2 * half * overrun[contact];
    return contact === 'hard' ? beyond : beyond * share;
  };
  const { heel, crown, length, height, edges } = mark;
  return {
    toe: side(edges.toe, length / 2, heel + 0.5),
    heel: side(edges.heel, length / 2, 0.5 - heel),
    root: side(edges.root, height / 2, crown + 0.5),
    crown: side(edges.crown, height / 2, 0.5 - crown),
  };
}

/**
 * How much the outline is sheared, in crown per heel fraction, so that an ellipse of these extents has its
 * long axis at the slant (derived: tan 2θ = 2·cov/(a² − b²) of an ellipse with half extents a and b). Never so
 * much that nothing of the height is left.
 */
function shearOf(mark: Mark, aspect: number): number {
  const [a, b] = [mark.length * aspect, mark.height];
  if (!(a > 0)) return 0;
  const shear = (Math.tan((2 * mark.slant_deg * Math.PI) / 180) * (a * a - b * b)) / (2 * a * a);
  const most = (0.9 * b) / a;
  return Math.min(most, Math.max(-most, shear)) * aspect;
}

type Side = { readonly of: (place: FlankPlace) => number; readonly limit: number };

const sides: readonly Side[] = [
  { of: ({ heel }) => -heel, limit: 0.5 },
  { of: ({ heel }) => heel, limit: 0.5 },
  { of: ({ crown }) => -crown, limit: 0.5 },
  { of: ({ crown }) => crown, limit: 0.5 },
];

/** The part of a convex outline that lies on the flank (cut side by side, after Sutherland and Hodgman 1974). */
export const cutToFlank = (outline: readonly FlankPlace[]): readonly FlankPlace[] => sides.reduce(cutAt, outline);

function cutAt(outline: readonly FlankPlace[], side: Side): readonly FlankPlace[] {
  return outline.flatMap((place, index) => {
    const next = outline[(index + 1) % outline.length] ?? place;
    const [here, there] = [side.limit - side.of(place), side.limit - side.of(next)];
    const kept = here >= 0 ? [place] : [];
    if (here >= 0 === there >= 0) return kept;
    const share = here / (here - there);
    const crossing = {
      heel: place.heel + (next.heel - place.heel) * share,
      crown: place.crown + (next.crown - place.crown) * share,
    };
    return [...kept, crossing];
  });
}
