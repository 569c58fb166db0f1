import { cutGearSet, type GearSet, type GearSetSpec } from '../../../hardware-sim/axle/mesh/gearSet.ts';
import { mesh } from '../../../hardware-sim/axle/mesh/mesh.ts';
import { describeMark } from '../../../hardware-sim/axle/mesh/mark.ts';
import { rollThroughMesh } from '../../../hardware-sim/axle/mesh/paint.ts';
import type { EaseOff } from '../../../hardware-sim/axle/mesh/pinionFlank.ts';
import { seeded, type Random } from '../../../hardware-sim/seeded.ts';
import type { Mark } from '../../../src/shared/axle/mark/mark.ts';
import type { PlanInput, TrialSeen } from '../../../src/shared/axle/plan/input.ts';

/** How the relief of a population comes about: drawn on its own, or such that marks of usual size show in whatever film. */
export type Relieved = 'on-its-own' | 'to-the-mark';

export interface Population {
  /** Spread of each ease-off's apex: drawn between these, for each set (fractions of face and height). */
  readonly cutting: readonly [number, number];
  readonly relieved: Relieved;
}

/** What is drawn for every axle, as it is printed with the table. */
export const spreads = {
  film_um: [4, 15],
  position_mm: 0.25,
  reading: 0.04,
  backlashReading_mm: 0.004,
  ownBacklash_mm: 0.01,
  variation_mm: [0.01, 0.03],
  markLength: [0.4, 0.65],
  markHeight: [0.5, 0.75],
  bias: 0.1,
} as const;

const window_mm: readonly [number, number] = [0.15, 0.25];
const shimStep = 0.02;

/** An axle on the stand: what a technician may ask it, and what only the twin knows. */
export interface Stand {
  readonly words: string;
  /** The input of a plan after these trials. */
  ask(trials: readonly TrialSeen[]): PlanInput;
  /** Puts it together and reads it, reading errors and all. */
  tryAt(pinionOut: number, ringAway: number): TrialSeen;
  /** Whether it is right there: docs/command-line.md, judged on the marks as they are, not as they are read. */
  rightAt(pinionOut: number, ringAway: number): boolean;
  /** Whether any position is right. */
  canBeRight(): boolean;
  /** Drive crown and backlash as they are. */
  truthAt(
    pinionOut: number,
    ringAway: number,
  ): { readonly crown: number; readonly heel: number; readonly backlash: number; readonly variation: number };
}

interface Place {
  readonly backlash: number;
  readonly convex: Mark;
  readonly concave: Mark;
}

const degrees = (value: number): number => (value * Math.PI) / 180;

/** Good to a hundredth of a flank and a few µm, and four times quicker than the finest. */
const fineness = { pinion: [12, 12], contact: [9, 9], paint: [31, 21] } as const;

/** Draws one axle. First trials that bind are drawn again: gears that cannot turn cannot be painted. */
export function drawStand(seed: number, population: Population): Stand {
  const random = seeded(seed * 7919 + 13);
  const film = Math.exp(random.uniform(Math.log(spreads.film_um[0]), Math.log(spreads.film_um[1]))) / 1000;
  const { spec, input, driveFlank, words } = drawSet(random, film, population);
  const set = cutGearSet(spec, fineness);
  const variation = random.uniform(...spreads.variation_mm);
  const start = drawStart(random, set, variation);
  const at = remembered((pinionOut, ringAway) =>
    placeAt(set, film, start.pinionOut + pinionOut, start.ringAway + ringAway),
  );
  const coastFlank = driveFlank === 'convex' ? 'concave' : 'convex';
  const driveRight = (pinionOut: number, ringAway: number): boolean => {
    const place = at(pinionOut, ringAway);
    return (
      inBox(place[driveFlank]) &&
      place.backlash - variation / 2 >= window_mm[0] &&
      place.backlash + variation / 2 <= window_mm[1]
    );
  };
  const coastHard = (pinionOut: number, ringAway: number): boolean =>
    Object.values(at(pinionOut, ringAway)[coastFlank].edges).includes('hard');
  const someRight = (also: (pinionOut: number, ringAway: number) => boolean): boolean =>
    anyPosition(start, at, (pinionOut, ringAway) => driveRight(pinionOut, ringAway) && also(pinionOut, ringAway));
  return {
    words,
    ask: (trials) => ({ ...input, trials: [...trials] }),
    tryAt: (pinionOut, ringAway) => {
      const place = at(pinionOut, ringAway);
      return {
        pinionOut_mm: pinionOut,
        ringAway_mm: ringAway,
        backlash: readBacklash(random, place.backlash, variation),
        pattern: { drive: readMark(random, place[driveFlank]), coast: readMark(random, place[coastFlank]) },
      };
    },
    rightAt: (pinionOut, ringAway) =>
      driveRight(pinionOut, ringAway) && (!coastHard(pinionOut, ringAway) || !someRight((p, g) => !coastHard(p, g))),
    canBeRight: () => someRight(() => true),
    truthAt: (pinionOut, ringAway) => {
      const place = at(pinionOut, ringAway);
      return { crown: place[driveFlank].crown, heel: place[driveFlank].heel, backlash: place.backlash, variation };
    },
  };
}

const inBox = ({ heel, crown }: Mark): boolean => Math.abs(crown) <= 0.12 && heel >= -0.22 && heel <= 0.12;

function drawSet(random: Random, film: number, population: Population) {
  const [hobbed, hypoid] = [random.next() < 0.5, random.next() < 0.6];
  const outerDiameter_mm = Math.round(random.uniform(18, 26)) * 10;
  const pinionTeeth = Math.round(random.uniform(9, 13));
  const ringTeeth = Math.round(pinionTeeth * random.uniform(3.1, 4.1));
  const faceWidth_mm = Math.round(outerDiameter_mm * 0.148);
  const offset_mm = hypoid ? Math.round(outerDiameter_mm * random.uniform(0.1, 0.17)) : 0;
  const spiral = hypoid ? 46 : 35;
  const cutterRadius_mm = (hobbed ? 0.4 : 0.5) * outerDiameter_mm;
  const driveFlank = random.next() < 0.8 ? ('convex' as const) : ('concave' as const);
  const height = (2.1 * (outerDiameter_mm - faceWidth_mm) * Math.cos(degrees(hypoid ? 28 : 35))) / ringTeeth;
  const easeOff = drawRelief(random, film, population, faceWidth_mm, height);
  const spec: GearSetSpec = {
    pinionTeeth,
    ringTeeth,
    outerDiameter_mm,
    faceWidth_mm,
    offset_mm,
    cutterRadius_mm,
    easeOff,
    pinionSpiral_rad: degrees(spiral),
    cut: hobbed ? { kind: 'face-hobbed', bladeGroups: 17 } : { kind: 'face-milled', rootTilt_rad: degrees(4.5) },
    pressure_rad: degrees(20),
    backlash_mm: random.normal((window_mm[0] + window_mm[1]) / 2, spreads.ownBacklash_mm),
  };
  const cut = hobbed ? ('face-hobbed' as const) : ('face-milled' as const);
  const input: PlanInput = {
    set: {
      pinionTeeth,
      ringTeeth,
      outerDiameter_mm,
      faceWidth_mm,
      offset_mm,
      pinionSpiral_deg: spiral,
      cut,
      cutterRadius_mm,
      driveFlank,
    },
    backlashBasis: { direction: 'along-rotation', at: 'heel' },
    limits: { backlash_mm: [...window_mm] },
    target: { kind: 'new-set' },
    shimStep_mm: { pinion: shimStep, side: shimStep },
    trials: [],
  };
  return { spec, input, driveFlank, words: `${cut}, ${hypoid ? 'hypoid' : 'bevel'}` };
}

function drawRelief(random: Random, film: number, { cutting, relieved }: Population, face: number, height: number) {
  const [length, tall] = [random.uniform(...spreads.markLength), random.uniform(...spreads.markHeight)];
  const error = random.uniform(...cutting);
  const shownIn = relieved === 'to-the-mark' ? film : 0.01;
  const one = (): EaseOff => {
    const lengthwise = (2 * shownIn) / ((length * face * random.uniform(0.85, 1.15)) / 2) ** 2;
    const profile = (2 * shownIn) / ((tall * height * random.uniform(0.85, 1.15)) / 2) ** 2;
    const bias = random.normal(0, spreads.bias) * Math.sqrt(lengthwise * profile);
    return { lengthwise, bias, profile, apex: { heel: random.normal(0, error), crown: random.normal(0, error) } };
  };
  return { convex: one(), concave: one() };
}

interface Start {
  readonly pinionOut: number;
  readonly ringAway: number;
}

function drawStart(random: Random, set: GearSet, variation: number): Start {
  const start = { pinionOut: random.normal(0, spreads.position_mm), ringAway: random.normal(0, spreads.position_mm) };
  const { backlash_mm } = mesh(set, { pinionOut_mm: start.pinionOut, ringAway_mm: start.ringAway });
  return backlash_mm > variation / 2 + 0.005 ? start : drawStart(random, set, variation);
}

function placeAt(set: GearSet, film: number, pinionOut_mm: number, ringAway_mm: number): Place {
  const meshed = mesh(set, { pinionOut_mm, ringAway_mm });
  const mark = (flank: 'convex' | 'concave') => describeMark(rollThroughMesh(meshed[flank]), set.frame, film);
  return { backlash: meshed.backlash_mm, convex: mark('convex'), concave: mark('concave') };
}

function remembered(
  make: (pinionOut: number, ringAway: number) => Place,
): (pinionOut: number, ringAway: number) => Place {
  const known = new Map<string, Place>();
  return (pinionOut, ringAway) => {
    const name = `${pinionOut.toFixed(4)} ${ringAway.toFixed(4)}`;
    const place = known.get(name) ?? make(pinionOut, ringAway);
    known.set(name, place);
    return place;
  };
}

/** Walks the pinion through 1.5 mm about where it was cut to stand, the ring gear at three backlashes each time. */
function anyPosition(
  start: Start,
  at: (pinionOut: number, ringAway: number) => Place,
  fits: (pinionOut: number, ringAway: number) => boolean,
): boolean {
  // From the middle outwards, because that is where right positions usually are.
  const offsets = Array.from({ length: 25 }, (_, n) => 0.0625 * (n % 2 === 0 ? n / 2 : -(n + 1) / 2));
  return offsets.some((offset) => {
    const pinionOut = offset - start.pinionOut;
    const first = -start.ringAway - 0.35 * offset;
    const middle = first + (0.2 - at(pinionOut, first).backlash) / 0.9;
    return [0, -0.03, 0.03].some((more) => fits(pinionOut, middle + more));
  });
}

const kept = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

function readMark(random: Random, mark: Mark): Mark {
  const off = (value: number, low: number, high: number): number =>
    kept(value + random.normal(0, spreads.reading), low, high);
  return {
    ...mark,
    heel: off(mark.heel, -0.5, 0.5),
    crown: off(mark.crown, -0.5, 0.5),
    length: off(mark.length, 0, 1),
    height: off(mark.height, 0, 1),
    U95: { heel: 2 * spreads.reading, crown: 2 * spreads.reading },
  };
}

/** A mesh that binds reads 0. */
function readBacklash(random: Random, backlash: number, variation: number): TrialSeen['backlash'] {
  const mean = backlash + random.normal(0, spreads.backlashReading_mm);
  const read = (value: number): number => Math.max(0, value);
  return {
    mean_mm: read(mean),
    min_mm: read(mean - variation / 2),
    max_mm: read(mean + variation / 2),
    U95_mm: 2 * spreads.backlashReading_mm,
  };
}
