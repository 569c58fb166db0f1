import type { SetInput } from '../../../../../src/shared/axle/mesh/input.ts';
import { describeSet, type MeshModel } from '../../../../../src/shared/axle/mesh/meshModel.ts';
import type { Position } from '../../../../../src/shared/axle/mesh/evaluate.ts';
import { type EaseOff, easeoffAt } from '../../../../../src/shared/axle/mesh/easeoff.ts';
import { rows } from '../../../../../src/shared/axle/mesh/flankGrid.ts';
import { type Length, mm } from '../../../../../src/shared/basics/quantity.ts';
import type { Flank } from '../../../../../src/shared/axle/mark/mark.ts';

/** Invented sets with round dimensions, named as in the vectors. */
export const sets = {
  example_bevel_12_43: {
    pinionTeeth: 12,
    ringTeeth: 43,
    outerDiameter_mm: 210,
    faceWidth_mm: 31,
    offset_mm: 0,
    pinionSpiral_deg: 35,
  },
  example_hypoid_12_43: {
    pinionTeeth: 12,
    ringTeeth: 43,
    outerDiameter_mm: 210,
    faceWidth_mm: 31,
    offset_mm: 30,
    pinionSpiral_deg: 46,
  },
  example_hypoid_9_38: {
    pinionTeeth: 9,
    ringTeeth: 38,
    outerDiameter_mm: 262,
    faceWidth_mm: 40,
    offset_mm: 40,
    pinionSpiral_deg: 47,
  },
  example_heavy_10_43_de2_390_b_58_offset_24_beta1_41: {
    pinionTeeth: 10,
    ringTeeth: 43,
    outerDiameter_mm: 390,
    faceWidth_mm: 58,
    offset_mm: 24,
    pinionSpiral_deg: 41,
  },
} as const satisfies Record<string, SetInput>;

/** How a case in the vectors says its teeth were cut. */
export interface CutCase {
  readonly set: string;
  readonly cut: string;
  readonly cutter_radius_mm?: number;
  readonly blade_groups?: number | null;
  readonly root_tilt_deg?: number;
}

/** The input of a case; the vectors' usual cutters are FM 105 with 4.5° of tilt and FH 84 with 17 groups. */
export function inputOf(from: CutCase): SetInput {
  const blank: SetInput | undefined = Object.entries(sets).find(([name]) => name === from.set)?.[1];
  if (blank === undefined) throw new Error(`no such set: ${from.set}`);
  return from.cut === 'FM'
    ? {
        ...blank,
        cut: 'face-milled',
        cutterRadius_mm: from.cutter_radius_mm ?? 105,
        rootTilt_deg: from.root_tilt_deg ?? 4.5,
      }
    : {
        ...blank,
        cut: 'face-hobbed',
        cutterRadius_mm: from.cutter_radius_mm ?? 84,
        bladeGroups: from.blade_groups ?? 17,
      };
}

export function modelFrom(input: SetInput): MeshModel {
  const described = describeSet(input);
  if (!described.ok) throw new Error(described.problem.sentence);
  return described.value;
}

export const modelOf = (from: CutCase): MeshModel => modelFrom(inputOf(from));

/**
 * The set of a case whose blades stand at the design angle counted from the *cutter axis* on this flank, as the
 * face-milled vectors were made. The flank then has another angle of its own, and only this flank is the vectors'.
 */
export function modelByBlade(from: CutCase, flank: Flank, more: Partial<SetInput> = {}): MeshModel {
  const input = { ...inputOf(from), ...more };
  if (input.cut !== 'face-milled') return modelFrom(input);
  const { blank, set } = modelFrom(input);
  const side = flank === 'convex' ? 1 : -1;
  const [up, across] = [Math.cos(set.rootTilt), Math.sin(set.rootTilt) * Math.sin(blank.ringSpiral)];
  const blade = set.pressureAngle + side * blank.limitPressure;
  const own = Math.asin(Math.sin(blade) / Math.hypot(up, across)) - side * Math.atan2(across, up);
  return modelFrom({ ...input, pressureAngle_deg: ((own - side * blank.limitPressure) * 180) / Math.PI });
}

export const flankOf = (name: string): Flank => (name === 'convex' ? 'convex' : 'concave');

export const position = (pinionOut: number, ringAway: number): Position => ({
  pinionOut: mm(pinionOut),
  ringAway: mm(ringAway),
});

/**
 * Where gap field and relief together are smallest (mm from mid face and mid flank), finer than the grid by a parabola
 * each way. The relief stays with the ring gear here, as in the contact calculation of the vectors.
 */
export function closest(
  model: MeshModel,
  flank: Flank,
  at: Position,
  easeoff: EaseOff,
): { readonly u: number; readonly v: number } {
  const { u, v, pinionOut, ringAway } = model.flanks[flank].grid;
  const gaps = u.map((along, index) => {
    const opened = at.pinionOut * (pinionOut.gap[index] ?? 0) + at.ringAway * (ringAway.gap[index] ?? 0);
    return opened + easeoffAt(easeoff, along, v[index] ?? 0);
  });
  const index = gaps.indexOf(Math.min(...gaps));
  // One column on, u and v both change: the tooth is taller there.
  const on = (of: Float64Array, stride: number): number => (of[index + stride] ?? NaN) - (of[index] ?? NaN);
  const [along, up] = [nudge(gaps, index, rows), nudge(gaps, index, 1)];
  return {
    u: (u[index] ?? NaN) + along * on(u, rows),
    v: (v[index] ?? NaN) + along * on(v, rows) + up * on(v, 1),
  };
}

function nudge(gaps: Float64Array, index: number, stride: number): number {
  const [before = 0, here = 0, after = 0] = [gaps[index - stride], gaps[index], gaps[index + stride]];
  return (before - after) / (2 * (before - 2 * here + after));
}

export const film = (um: number): { readonly film: Length } => ({ film: mm(um / 1000) });
