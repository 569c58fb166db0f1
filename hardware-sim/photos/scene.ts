import { cutGearSet, type GearSet } from '../axle/mesh/gearSet.ts';
import { mesh } from '../axle/mesh/mesh.ts';
import { rollThroughMesh, type PaintedFlank } from '../axle/mesh/paint.ts';
import type { Cut, FlankName } from '../axle/mesh/ringFlank.ts';
import type { Random } from '../seeded.ts';
import { compoundNames, type Film } from './compound.ts';
import type { Development } from './develop.ts';

/** Ways in which a photo cannot be read. */
export const spoilings = ['no-mark', 'no-compound', 'smeared', 'glare', 'out-of-focus'] as const;
export type Spoiling = (typeof spoilings)[number];

/** Everything about a photo before it is taken. */
export interface Scene {
  readonly set: GearSet;
  readonly flank: FlankName;
  readonly painted: PaintedFlank;
  readonly film_mm: number;
  readonly film: Film;
  readonly width: number;
  readonly height: number;
  readonly view: Stand;
  readonly light: Lighting;
  readonly development: Development;
  /** JPEG quality, 1…100. */
  readonly quality: number;
  /** Standard deviation of a tap on a corner, as a share of the photo's width. */
  readonly hand: number;
  readonly spoilt?: Spoiling;
}

/** Where the camera is held, seen from the middle of the flank. */
interface Stand {
  readonly distance_mm: number;
  /** Towards the heel, from straight before the flank. */
  readonly aside_rad: number;
  /** Towards the crown: one looks into the slot from above. */
  readonly above_rad: number;
  readonly roll_rad: number;
  /** How much of the picture's width the flank fills. */
  readonly fills: number;
  /** Where in the picture the flank lies: shares of the room left beside it, off the middle. */
  readonly off: readonly [number, number];
}

interface Lighting {
  /** Lamp against the camera's direction, rad: to the heel, to the crown. */
  readonly lamp: readonly [number, number];
  readonly ambient: number;
  readonly oil: number;
  /** Spots of mirrored light: place (heel, crown), half sizes along and up the flank, strength. */
  readonly spots: readonly (readonly [number, number, number, number, number])[];
  /** A shadow's edge across the flank: place, slope, softness, and the light that is left; none if 1. */
  readonly shadow: readonly [number, number, number, number];
  readonly exposure: number;
}

const degrees = (value: number): number => (value * Math.PI) / 180;
const pick = <T>(random: Random, from: readonly T[]): T => from[Math.floor(random.next() * from.length)] as T;

/** Sets of round dimensions of our own: two cuts, with and without offset, relieved a little differently. */
const cuts: readonly Cut[] = [
  { kind: 'face-milled', rootTilt_rad: degrees(4.5) },
  { kind: 'face-milled', rootTilt_rad: degrees(2.5) },
  { kind: 'face-hobbed', bladeGroups: 17 },
];
const reliefs = [
  { lengthwise: 1.8e-4, bias: 0, profile: 1.6e-3 },
  { lengthwise: 2.6e-4, bias: 1.2e-4, profile: 2.4e-3 },
  { lengthwise: 2.2e-4, bias: -1e-4, profile: 3e-3 },
] as const;

const sets = new Map<string, GearSet>();
function gearSet(cut: number, relief: number, offset_mm: number): GearSet {
  const key = `${cut} ${relief} ${offset_mm}`;
  const kept = sets.get(key) ?? cutGearSet(specOf(cuts[cut] as Cut, relief, offset_mm));
  sets.set(key, kept);
  return kept;
}

function specOf(cut: Cut, relief: number, offset_mm: number) {
  const easeOff = { ...(reliefs[relief] as (typeof reliefs)[number]), apex: { heel: 0, crown: 0 } };
  return {
    pinionTeeth: 12,
    ringTeeth: 43,
    outerDiameter_mm: 210,
    faceWidth_mm: 31,
    offset_mm,
    pinionSpiral_rad: degrees(offset_mm === 0 ? 35 : 46),
    cutterRadius_mm: cut.kind === 'face-milled' ? 105 : 84,
    cut,
    pressure_rad: degrees(20),
    easeOff: { convex: easeOff, concave: easeOff },
    backlash_mm: 0.2,
  };
}

/** Positions on a coarse net, so that few meshes have to be solved for many photos. */
const rolled = new Map<string, PaintedFlank>();
function rolledFlank(random: Random, set: GearSet, flank: FlankName): PaintedFlank {
  const at = { pinionOut_mm: pick(random, [-0.1, -0.05, 0, 0.05, 0.1]), ringAway_mm: pick(random, [-0.1, 0, 0.1]) };
  const key = `${[...sets.values()].indexOf(set)} ${flank} ${at.pinionOut_mm} ${at.ringAway_mm}`;
  const kept = rolled.get(key) ?? rollThroughMesh(mesh(set, at)[flank]);
  rolled.set(key, kept);
  return kept;
}

/** Draws a photo to be taken. */
export function drawScene(random: Random, size: readonly [number, number], spoilt?: Spoiling): Scene {
  const set = gearSet(pick(random, [0, 1, 2]), pick(random, [0, 1, 2]), pick(random, [0, 30]));
  const flank = pick(random, ['convex', 'concave'] as const);
  const painted = rolledFlank(random, set, flank);
  return {
    set,
    flank,
    painted,
    film_mm: random.uniform(0.004, 0.011),
    film: {
      compound: pick(random, compoundNames),
      unevenness: random.uniform(0.1, 0.45),
      feather: random.uniform(0.3, 1.1),
      residue: random.uniform(0.02, 0.12),
      hiding: random.uniform(2.2, 4),
    },
    width: size[0],
    height: size[1],
    view: drawStand(random),
    light: drawLight(random, spoilt),
    development: drawDevelopment(random, size[0], spoilt),
    quality: Math.round(random.uniform(70, 95)),
    hand: 0.0018,
    ...(spoilt === undefined ? {} : { spoilt }),
  };
}

/** What is photographed: one flank of a gear set as it was rolled, under this film. */
interface Rolled {
  readonly set: GearSet;
  readonly flank: FlankName;
  readonly painted: PaintedFlank;
  readonly film_mm: number;
}

/** A photo at the stand, as somebody takes it who knows how: yellow compound, thin, the lamp to one side, held still. */
export const plainScene = (random: Random, rolled: Rolled, size: readonly [number, number]): Scene => ({
  ...rolled,
  film: { compound: 'yellow', unevenness: 0.2, feather: 0.5, residue: 0.05, hiding: 3 },
  width: size[0],
  height: size[1],
  view: { ...drawStand(random), fills: 0.7, off: [0, 0] },
  light: { ...drawLight(random), spots: [], shadow: [0, 0, 0.1, 1], lamp: [degrees(20), degrees(20)] },
  development: drawDevelopment(random, size[0]),
  quality: 90,
  hand: 0.0018,
});

const drawStand = (random: Random): Stand => ({
  distance_mm: random.uniform(130, 280),
  aside_rad: degrees(random.uniform(-20, 20)),
  above_rad: degrees(random.uniform(36, 56)),
  roll_rad: degrees(random.uniform(-15, 15)),
  fills: random.uniform(0.45, 0.8),
  off: [random.uniform(-0.3, 0.3), random.uniform(-0.3, 0.3)],
});

function drawLight(random: Random, spoilt?: Spoiling): Lighting {
  const glaring = spoilt === 'glare';
  const count = glaring ? 9 : pick(random, [0, 1, 1, 2]);
  const spots = Array.from({ length: count }, (_, n) => {
    const heel = glaring ? (n - 4) / 8.5 : random.uniform(-0.5, 0.5);
    const size = glaring ? 0.14 : random.uniform(0.02, 0.05);
    const strength = glaring ? random.uniform(1.5, 2.5) : random.uniform(0.2, 1.1);
    const crown = glaring ? random.uniform(-0.15, 0.15) : random.uniform(-0.5, 0.5);
    return [heel, crown, size, glaring ? 0.6 : random.uniform(0.06, 0.25), strength] as const;
  });
  const shaded = random.next() < 0.4;
  return {
    lamp: [degrees(random.uniform(-35, 35)), degrees(random.uniform(-10, 45))],
    ambient: random.uniform(0.3, 0.6),
    oil: random.uniform(0, 0.25),
    spots,
    shadow: [
      random.uniform(-0.4, 0.4),
      random.uniform(-0.5, 0.5),
      random.uniform(0.02, 0.15),
      shaded ? random.uniform(0.5, 0.8) : 1,
    ],
    exposure: random.uniform(0.75, 1.1),
  };
}

function drawDevelopment(random: Random, width: number, spoilt?: Spoiling): Development {
  const pixel = width / 1632;
  return {
    blur_px: spoilt === 'out-of-focus' ? pixel * random.uniform(22, 34) : pixel ** 0.5 * random.uniform(0.5, 1.6),
    gains: [random.uniform(0.9, 1.12), 1, random.uniform(0.86, 1.1)],
    shotNoise: random.uniform(0.01, 0.035),
    readNoise: random.uniform(0.002, 0.008),
  };
}
