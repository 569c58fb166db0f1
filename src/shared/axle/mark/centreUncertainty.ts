import { apart, type FlankMap, leanBySkew } from './flankMap.ts';

/** Centre of a mark, as fractions. */
interface Centre {
  readonly heel: number;
  readonly crown: number;
}

/** Standard deviation of a tap, as a share of the flank's length in the photo: a finger on a screen it fills. Assumed. */
const tap = 0.003;
/** A pixel is never hit better than this. */
const leastTap_px = 0.7;
/** The bareness at which the mark is cut could be this much more or less. */
const cut = 0.12;
/**
 * Standard deviations at mid face of what four corners and two arcs do not show: how the arc leans along the face, how
 * exactly the arcs were found, whether the flank is bowed from root to crown; and of what uneven film and light do to the
 * outline. Learnt from rendered photographs, see docs/reading-the-mark.md.
 */
const unseen = { heel: 0.012, crown: 0.01 };
/** Standard deviation of the long edges at mid face where they hardly show, as a fraction of the height (from rendered ones). */
const faintEdge = 0.06;
const outline = { heel: 0.004, crown: 0.006 };

/**
 * Standard uncertainty of the centre from everything that could have been otherwise, each moved in turn by its own
 * standard deviation (JCGM 100: sensitivities by difference): the four corners in both directions, and the bareness
 * at which the mark was cut.
 * @param centreAt the centre with the mark cut at another bareness
 * @param faintness how little crown and root show in the photo, 0…1
 */
export function centreUncertainty(
  map: FlankMap,
  centre: Centre,
  centreAt: (bareness: number) => Centre,
  faintness = 0,
): Centre {
  const corners = cornerShares(map, centre);
  const [less, more] = [centreAt(0.5 - cut), centreAt(0.5 + cut)];
  const arch = 1 - 4 * centre.heel * centre.heel;
  return {
    heel: Math.hypot(corners.heel, (more.heel - less.heel) / 2, alongFace(map) * arch, outline.heel),
    crown: Math.hypot(
      corners.crown,
      (more.crown - less.crown) / 2,
      unseen.crown * arch,
      faintness * faintEdge * arch,
      outline.crown,
    ),
  };
}

/** How much of what a skewed arc says of its lean may be otherwise (from rendered photographs). */
const skewDoubt = 0.6;
/** How much of its bend, over its proportions, an arc leans give or take (from rendered photographs). */
const leansBy = 0.08;
/**
 * How far aside mid face may lie for each unit by which the crown looks longer than the root, and where the cut tells what
 * of the narrowing is the tooth's own: half of it (own assumption).
 */
const nearDoubt = { seen: 0.3, told: 0.15 } as const;

/**
 * What is not seen along the face at its middle: how far the arc leans, more where it is more bent or skewed; and how much
 * of the narrowing is the camera's, which carries mid face aside. A near camera sees the crown, which is nearer to it,
 * longer than the root, and as much as it does so it may make one end look higher than the other.
 */
function alongFace({ corners: [a, b, c, d], bends, skew, depthTold }: FlankMap): number {
  const aspect = (apart(a, d) + apart(b, c)) / (apart(a, b) + apart(d, c));
  const bend = (bends.crown + bends.root) / 2;
  const nearness = Math.log(apart(b, c) / apart(a, d));
  return Math.hypot(
    unseen.heel,
    (leansBy * bend) / aspect,
    skewDoubt * leanBySkew(bend, skew),
    nearness * (depthTold ? nearDoubt.told : nearDoubt.seen),
  );
}

/** A corner carries a place with it by how near it is; the flank's own grid at the place turns pixels into fractions. */
function cornerShares(map: FlankMap, { heel, crown }: Centre): Centre {
  const [along, up] = [heel + 0.5, crown + 0.5];
  const [a, b, c, d] = map.corners;
  const by = Math.max(leastTap_px, tap * Math.max(apart(a, d), apart(b, c)));
  const weights = [(1 - along) * (1 - up), (1 - along) * up, along * up, along * (1 - up)];
  const carried = by * Math.hypot(...weights);
  const step = 0.02;
  const [left, right] = [map.toPhoto(along - step, up), map.toPhoto(along + step, up)];
  const [below, above] = [map.toPhoto(along, up - step), map.toPhoto(along, up + step)];
  const face = [(right[0] - left[0]) / (2 * step), (right[1] - left[1]) / (2 * step)] as const;
  const height = [(above[0] - below[0]) / (2 * step), (above[1] - below[1]) / (2 * step)] as const;
  const area = Math.abs(face[0] * height[1] - face[1] * height[0]);
  return { heel: (carried * Math.hypot(...height)) / area, crown: (carried * Math.hypot(...face)) / area };
}
