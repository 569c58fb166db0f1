import { along, dot, minus, plus, unit, type Vector } from '../../axle/mesh/vector.ts';
import type { Random } from '../../seeded.ts';
import type { LitAt } from './picture.ts';
import { eased, type Ripple, ripple } from './ripple.ts';

export type Rgb = readonly [number, number, number];

/** A lamp near enough that what lies closer to it is brighter. */
interface Lamp {
  readonly at: Vector;
  readonly colour: Rgb;
  readonly power: number;
}

/** How a scene may be lit. */
export interface LightManner {
  /** Light from all sides, as a share of all. */
  readonly ambient: readonly [number, number];
  /** How far the lamp stands off, in face widths: near is uneven. */
  readonly lampOff: readonly [number, number];
  readonly lamps: 1 | 2;
  /** How far the lamps' colours stray from white. */
  readonly tint: number;
  /** Strength of mirrored lamps on metal and film, and of the sheen of oil. */
  readonly glints: number;
  readonly sheen: number;
  /** Light left in a shadow laid over an end or along an edge; 1 is none. */
  readonly shadow: readonly [number, number];
}

/** Where one stands: the flank's middle, its normal, and the two ways along it. */
export interface Stand {
  readonly middle: Vector;
  readonly normal: Vector;
  readonly toHeel: Vector;
  readonly toCrown: Vector;
  readonly eye: Vector;
  readonly face: number;
}

export interface Lighting {
  /** Seven numbers: diffuse of two lamps, half-way squareness of both, where the mirror looks (2), sky seen. */
  readonly litAt: LitAt;
  readonly lamps: readonly Lamp[];
  readonly ambient: number;
  readonly glints: number;
  readonly sheen: number;
  /** What bright metal mirrors of the room, about 1 in the mean. */
  readonly room: Ripple;
  /** Light left at a place of the flank. */
  readonly shade: (heel: number, crown: number) => number;
}

export function drawLighting(random: Random, stand: Stand, manner: LightManner): Lighting {
  const lamps = Array.from({ length: manner.lamps }, (_, n) => lampOf(random, stand, manner, n));
  return {
    litAt: litBy(lamps, stand.eye),
    lamps,
    ambient: random.uniform(...manner.ambient),
    glints: manner.glints * random.uniform(0.5, 1.5),
    sheen: manner.sheen * random.uniform(0.5, 1.5),
    room: ripple(random, 0.5, 0.5, 7),
    shade: drawShade(random, manner),
  };
}

function lampOf(random: Random, stand: Stand, manner: LightManner, n: number): Lamp {
  const [aside, above] = [random.uniform(-0.9, 0.9), random.uniform(-0.1, 1)];
  const off = stand.face * random.uniform(...manner.lampOff);
  const way = unit(
    plus(stand.normal, plus(along(stand.toHeel, Math.tan(aside)), along(stand.toCrown, Math.tan(above)))),
  );
  const warm = random.uniform(-1, 1) * manner.tint;
  return {
    at: plus(stand.middle, along(way, off)),
    colour: [1 + warm, 1, Math.max(0.15, 1 - 1.3 * warm)],
    power: off * off * (n === 0 ? 1 : random.uniform(0.3, 0.8)),
  };
}

const litBy =
  (lamps: readonly Lamp[], eye: Vector): LitAt =>
  (point, normal) => {
    const toEye = unit(minus(eye, point));
    const of = (lamp: Lamp | undefined): readonly [number, number] => {
      if (lamp === undefined) return [0, 0];
      const arm = minus(lamp.at, point);
      const toLamp = unit(arm);
      const half = unit([toEye[0] + toLamp[0], toEye[1] + toLamp[1], toEye[2] + toLamp[2]]);
      return [
        (lamp.power * Math.max(0, dot(normal, toLamp))) / dot(arm, arm),
        Math.acos(Math.min(1, Math.max(0, dot(normal, half)))),
      ];
    };
    const [first, second] = [of(lamps[0]), of(lamps[1])];
    const back = 2 * dot(normal, toEye);
    const mirror: Vector = [back * normal[0] - toEye[0], back * normal[1] - toEye[1], back * normal[2] - toEye[2]];
    return [
      first[0],
      second[0],
      first[1],
      second[1],
      mirror[0] + 0.5 * mirror[1],
      mirror[2] - 0.5 * mirror[1],
      0.5 + 0.5 * normal[2],
    ];
  };

/** A hand's or a neighbour's shadow over one end, or along the root. */
function drawShade(random: Random, manner: LightManner): (heel: number, crown: number) => number {
  const left = random.uniform(...manner.shadow);
  const end = random.next() < 0.5 ? 1 : -1;
  const overEnd = random.next() < 0.5;
  const place = overEnd ? random.uniform(0.1, 0.42) : random.uniform(0.15, 0.4);
  const soft = random.uniform(0.05, 0.3);
  const lean = random.uniform(-0.3, 0.3);
  return (heel, crown) => {
    const over = overEnd ? end * heel - place + lean * crown : -crown - place + lean * heel;
    return 1 - (1 - left) * eased(over / soft);
  };
}
