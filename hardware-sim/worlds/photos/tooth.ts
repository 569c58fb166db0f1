import type { Random } from '../../seeded.ts';
import type { Vector } from '../../axle/mesh/vector.ts';

/**
 * A tooth that was never cut: a surface laid down by eye round a gear's axis (z), with no mesh and no machine behind it.
 * Lengths in mm, angles in rad. Places are `heel` and `crown`, both −½…½.
 */
export interface Tooth {
  readonly face: number;
  /** Height of the visible flank in the middle. */
  readonly height: number;
  /** Height at the toe over height at the heel. */
  readonly narrowing: number;
  /** Radius of the gear at mid face. */
  readonly radius: number;
  readonly teeth: number;
  /** How the tooth runs across the face: slope against the radius, and how much that changes from end to end. */
  readonly slope: number;
  readonly curve: number;
  /** How the flank leans, how it is bowed from root to crown (mm), and how the lean changes along the face. */
  readonly lean: number;
  readonly bow: number;
  readonly twist: number;
  /** How much the root line dips towards the heel: slope. */
  readonly dip: number;
  /** Which side of the tooth is looked at: its bulging one or its hollow one. */
  readonly side: 1 | -1;
  /** Width of the land on top and of the floor, mm. */
  readonly land: number;
  readonly floor: number;
}

/** What the ranges of a drawn tooth may be narrowed to. */
export interface ToothManner {
  readonly narrowing: readonly [number, number];
  readonly bow: readonly [number, number];
  readonly curve: readonly [number, number];
}

export function drawTooth(random: Random, manner: ToothManner): Tooth {
  const face = random.uniform(22, 44);
  const teeth = Math.round(random.uniform(34, 46));
  const radius = face * random.uniform(2.2, 3);
  const pitch = (2 * Math.PI * radius) / teeth;
  return {
    face,
    height: pitch * random.uniform(0.5, 0.68),
    narrowing: random.uniform(...manner.narrowing),
    radius,
    teeth,
    slope: Math.tan(random.uniform(0.42, 0.7)),
    curve: random.uniform(...manner.curve),
    lean: Math.tan(random.uniform(0.3, 0.46)),
    bow: random.uniform(...manner.bow),
    twist: random.uniform(-0.25, 0.25),
    dip: random.uniform(-0.06, 0.1),
    side: random.next() < 0.5 ? 1 : -1,
    land: pitch * random.uniform(0.1, 0.2),
    floor: pitch * random.uniform(0.12, 0.22),
  };
}

/** How high the flank stands at a place along the face. */
export const heightAt = (tooth: Tooth, heel: number): number => {
  const toe = (2 * tooth.narrowing) / (1 + tooth.narrowing);
  return tooth.height * (toe + (2 - 2 * toe) * (heel + 0.5));
};

/** A point at a height over the root, `aside` mm round the gear from the tooth's own line. */
function placed(tooth: Tooth, heel: number, up: number, aside: number): Vector {
  const out = tooth.radius + heel * tooth.face * Math.cos(Math.atan(tooth.slope));
  const along = (heel * tooth.face) / tooth.radius;
  const turn = tooth.slope * along * Math.cos(Math.atan(tooth.slope)) + tooth.curve * along * along + aside / out;
  return [out * Math.cos(turn), out * Math.sin(turn), up - tooth.dip * heel * tooth.face];
}

/** The flank in the photo; `turn` teeth farther round. */
export function flankPoint(tooth: Tooth, heel: number, crown: number, turn = 0): Vector {
  const height = heightAt(tooth, heel);
  const up = (crown + 0.5) * height;
  const in_ = tooth.lean * (1 + tooth.twist * heel) * up + tooth.bow * (1 - 4 * crown * crown);
  return turned(placed(tooth, heel, up, -tooth.side * in_), tooth, turn);
}

/** The far flank of the same tooth: the mirror of the near one beyond the land. */
export function farPoint(tooth: Tooth, heel: number, crown: number, turn = 0): Vector {
  const height = heightAt(tooth, heel);
  const down = (0.5 - crown) * height;
  const top = tooth.lean * (1 + tooth.twist * heel) * height + tooth.land;
  return turned(placed(tooth, heel, height - down, -tooth.side * (top + tooth.lean * down)), tooth, turn);
}

function turned([x, y, z]: Vector, tooth: Tooth, turn: number): Vector {
  const angle = (2 * Math.PI * turn) / tooth.teeth;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [x * cos - y * sin, x * sin + y * cos, z];
}
