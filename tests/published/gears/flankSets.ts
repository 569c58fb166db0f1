import type { SetInput } from '../../../src/shared/axle/mesh/input.ts';
import { curvatureFromMark, type EaseOff } from '../../../src/shared/axle/mesh/easeoff.ts';
import { describeSet, type MeshModel } from '../../../src/shared/axle/mesh/meshModel.ts';
import type { Flank } from '../../../src/shared/axle/mark/mark.ts';

/**
 * Figures of how far the mark moves on each flank. Derived: a closed form, flank surfaces, and a full unloaded tooth
 * contact with an explicit pinion, by other hands than ours, three ways that agree. Eight invented sets. The page they
 * come from rounds face widths and spirals; those below are the ones that give its limit angles to their last digit.
 */
export interface FlankSet {
  readonly name: string;
  readonly teeth: readonly [pinion: number, ring: number];
  readonly diameter_mm: number;
  readonly offset_mm: number;
  readonly spiral_deg: number;
  readonly face_mm: number;
  readonly cutter_mm: number;
  /** Limit angle, degrees. */
  readonly limit_deg: number;
  /** Height slope per mm at the pitch point, no root tilt, ×10⁻⁵: pinion out convex, concave, ring away convex, concave. */
  readonly slopes_1e5?: readonly [number, number, number, number];
  /** Crown (share of the visible height) per mm of pinion out, root tilt 4.5° where milled. */
  readonly crown: Both;
  /** Heel (share of the face) per mm. */
  readonly heelOut: Both;
  readonly heelAway: Both;
}

export type Both = Readonly<Record<Flank, number>>;

const set = (
  name: string,
  [pinion, ring, diameter_mm, offset_mm, cutter_mm]: readonly [number, number, number, number, number],
  [spiral_deg, face_mm, limit_deg]: readonly [number, number, number],
  marks: readonly [crown: Pair, heelOut: Pair, heelAway: Pair],
  slopes_1e5?: readonly [number, number, number, number],
): FlankSet => ({
  name,
  teeth: [pinion, ring],
  diameter_mm,
  offset_mm,
  cutter_mm,
  spiral_deg,
  face_mm,
  limit_deg,
  crown: both(marks[0]),
  heelOut: both(marks[1]),
  heelAway: both(marks[2]),
  ...(slopes_1e5 && { slopes_1e5 }),
});

type Pair = readonly [convex: number, concave: number];
const both = ([convex, concave]: Pair): Both => ({ convex, concave });

export const flankSets: readonly FlankSet[] = [
  set(
    'S1',
    [12, 43, 210, 0, 105],
    [35, 31.5, 0],
    [
      [1.008, 0.916],
      [0.485, 0.097],
      [0.572, 0.008],
    ],
    [-2448, -2046, -147, -143],
  ),
  set(
    'S2',
    [15, 39, 190, 0, 83],
    [35, 29, 0],
    [
      [1.131, 0.957],
      [0.307, 0.346],
      [0.657, -0.253],
    ],
    [-2745, -2179, -169, -283],
  ),
  set(
    'S3',
    [14, 37, 200, 20, 105],
    [42, 30, -4.31],
    [
      [1.097, 0.967],
      [0.687, -0.094],
      [0.544, -0.065],
    ],
    [-2313, -1869, -88, -299],
  ),
  set(
    'S4',
    [11, 41, 220, 22, 88],
    [44, 33, -2.819],
    [
      [0.902, 0.778],
      [0.368, 0.157],
      [0.633, -0.232],
    ],
    [-1920, -1543, -113, -223],
  ),
  set(
    'S5',
    [11, 41, 220, 37.4, 105],
    [48, 34.1, -7.101],
    [
      [0.859, 0.807],
      [0.755, -0.259],
      [0.545, 0.006],
    ],
    [-1804, -1529, -63, -217],
  ),
  set(
    'S6',
    [11, 41, 220, 44, 90],
    [48, 34.1, -7.652],
    [
      [0.914, 0.85],
      [0.584, -0.098],
      [0.67, -0.175],
    ],
    [-1872, -1598, -63, -284],
  ),
  set(
    'S7',
    [8, 43, 255, 51, 118],
    [50, 39, -7.263],
    [
      [0.762, 0.782],
      [0.798, -0.388],
      [0.503, 0.115],
    ],
    [-1434, -1284, -53, -109],
  ),
  set(
    'S8',
    [11, 41, 220, 37.4, 88],
    [48, 34.1, -5.912],
    [
      [0.773, 0.883],
      [-0.036, 0.701],
      [0.562, -0.218],
    ],
  ),
];

/** The one face-hobbed set of the page. */
export const hobbed = (given: FlankSet): boolean => given.name === 'S8';

export function inputFrom(given: FlankSet, rootTilt_deg = 4.5): SetInput {
  return {
    pinionTeeth: given.teeth[0],
    ringTeeth: given.teeth[1],
    outerDiameter_mm: given.diameter_mm,
    faceWidth_mm: given.face_mm,
    offset_mm: given.offset_mm,
    pinionSpiral_deg: given.spiral_deg,
    pressureAngle_deg: 20,
    cutterRadius_mm: given.cutter_mm,
    ...(hobbed(given) ? { cut: 'face-hobbed', bladeGroups: 17 } : { cut: 'face-milled', rootTilt_deg }),
  };
}

export function modelFor(input: SetInput): MeshModel {
  const described = describeSet(input);
  if (!described.ok) throw new Error(described.problem.sentence);
  return described.value;
}

/** The page's relief: film 10 µm, mark 0.7 of the height and 0.55 of the face, apex at mid face and mid flank. */
export function reliefOf(model: MeshModel): EaseOff {
  const { height, faceWidth } = model.visible;
  return { a: curvatureFromMark(0.01, 0.275 * faceWidth), b: 0, c: curvatureFromMark(0.01, 0.35 * height) };
}
