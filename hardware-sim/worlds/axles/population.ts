import type { Random } from '../../seeded.ts';
import { type Cones, conesOf, NoCones, type SetDrawn } from './cones.ts';
import type { Size } from './paint.ts';
import { type Flank, type FlankSlopes, flankSlopes } from './slopes.ts';

/** What is believed of a whole population; the ideal knows all of it. Lengths mm. */
export interface Population {
  /** How far the pinion of a first trial stands from where its gears were cut to stand (sd). */
  readonly position: number;
  /** Each flank's relief off its place, as a fraction of face and height (sd drawn evenly between). */
  readonly cutting: readonly [number, number];
  /** Backlash for each mm moved over the formula's: evenly between for the ring gear, sd about 1 for the pinion. */
  readonly ringShare: readonly [number, number];
  readonly pinionShare: number;
  /** Film of an axle, evenly in its logarithm, and the factor either way by which a trial's may differ. */
  readonly film: readonly [number, number];
  readonly filmChange: number;
  /**
   * Film in which the relief would show marks of usual size. `follows`: how much of a thicker film goes with more relief,
   * 1 where marks say nothing about the film, 0 where relief is what it is; `spread` of its logarithm besides.
   */
  readonly relief: { readonly film: number; readonly follows: number; readonly spread: number };
  /** Standard deviations of reading a mark's place and size (fractions) and a backlash. */
  readonly reading: number;
  readonly backlashReading: number;
  readonly windowWidth: number;
  /** Backlash left at the start: in and about the window, or none at all. */
  readonly start: 'about-window' | 'binds';
  readonly sets: 'usual' | 'all-kinds';
  /** Of a mark that an edge cuts off, whether the rest's centre is taken or where its middle would be. */
  readonly cutOffMarks: 'rest' | 'middle';
}

export const base: Population = {
  position: 0.25,
  cutting: [0.03, 0.06],
  ringShare: [0.8, 1.1],
  pinionShare: 0.15,
  film: [0.004, 0.015],
  filmChange: 1,
  relief: { film: 0.008, follows: 0.7, spread: 0.3 },
  reading: 0.04,
  backlashReading: 0.003,
  windowWidth: 0.1,
  start: 'about-window',
  sets: 'usual',
  cutOffMarks: 'rest',
};

/**
 * What somebody believes who does not know a population's spreads: where first trials stand, how well sets are cut, what a
 * millimetre makes of backlash, film, relief and reading are each held to be as unsure as where nobody has measured them.
 */
export const unknowing = (population: Population): Population => ({
  ...population,
  position: Math.max(0.5, population.position),
  cutting: [0.03, Math.max(0.08, population.cutting[1])],
  ringShare: [0.5, 1.15],
  pinionShare: 0.3,
  film: [0.003, 0.02],
  relief: { film: 0.008, follows: 0.6, spread: 0.45 },
  reading: Math.max(0.05, population.reading),
});

/** A set of gears with its true geometry, before relief and place are drawn. */
export interface Kind {
  readonly drawn: SetDrawn;
  readonly cones: Cones;
  readonly size: Size;
  readonly drive: Flank;
  readonly slopes: Readonly<Record<Flank, FlankSlopes>>;
  readonly heelRadius: number;
  /** Limits of backlash along the rotation at the heel. */
  readonly window: readonly [number, number];
  /** Smallest to largest station round the gear. */
  readonly variation: number;
}

const degrees = (value: number): number => (value * Math.PI) / 180;

/** Draws a kind of set; draws that no gears could have are drawn again. */
export function drawKind(random: Random, population: Population): Kind {
  for (;;) {
    const drawn = drawSet(random, population);
    const rest = { driven: random.next(), low: random.uniform(0.1, 0.2), vary: random.uniform(0.1, 0.3) };
    try {
      return kindOf(drawn, rest, population.windowWidth);
    } catch (reason) {
      if (!(reason instanceof NoCones)) throw reason;
    }
  }
}

/** What somebody was told of a set besides counts, diameter, driving flank and limits. */
export type ToldOfSet = 'cut' | 'nothing-more';

/** Another set with the same counts, diameter, driving flank and limits, as often as the population has it. */
export function drawLike(random: Random, { drawn, ...like }: Kind, told: ToldOfSet): Kind {
  const { pinionTeeth, ringTeeth, outerDiameter } = drawn;
  for (;;) {
    const cutting = drawCutting(random);
    const hobbed = told === 'cut' ? drawn.bladeGroups !== undefined : cutting.hobbed;
    const other = setOf(random, { pinionTeeth, ringTeeth, outerDiameter }, { ...cutting, hobbed });
    try {
      return { ...like, drawn: other, ...geometryOf(other) };
    } catch (reason) {
      if (!(reason instanceof NoCones)) throw reason;
    }
  }
}

interface Cutting {
  readonly hobbed: boolean;
  /** As a share of the diameter. */
  readonly offsetShare: number;
}

const drawCutting = (random: Random): Cutting => ({
  hobbed: random.next() < 0.4,
  offsetShare: random.next() < 0.3 ? 0 : random.uniform(0.05, 0.2),
});

function drawSet(random: Random, { sets }: Population): SetDrawn {
  const all = sets === 'all-kinds';
  const cutting = drawCutting(random);
  const outerDiameter = Math.round(all ? random.uniform(15, 40) : random.uniform(18, 26)) * 10;
  const ratio = all ? random.uniform(2.6, 5.4) : random.uniform(3.1, 4.2);
  const pinionTeeth = Math.max(6, Math.round(random.uniform(9, 13) * (ratio > 4.3 ? 0.75 : 1)));
  return setOf(random, { pinionTeeth, ringTeeth: Math.round(pinionTeeth * ratio), outerDiameter }, cutting);
}

function setOf(
  random: Random,
  counted: Pick<SetDrawn, 'pinionTeeth' | 'ringTeeth' | 'outerDiameter'>,
  { hobbed, offsetShare }: Cutting,
): SetDrawn {
  const { outerDiameter } = counted;
  const offset = Math.round(offsetShare * outerDiameter);
  return {
    ...counted,
    faceWidth: Math.round(outerDiameter * random.uniform(0.14, 0.165)),
    offset,
    pinionSpiral: degrees(offset === 0 ? 35 : Math.round(38 + 55 * offsetShare + random.uniform(-1, 1))),
    pressure: degrees(20),
    cutterRadius: (hobbed ? 0.4 : 0.5) * outerDiameter,
    rootTilt: hobbed ? 0 : degrees(random.uniform(3.5, 5.5)),
    ...(hobbed ? { bladeGroups: 17 } : {}),
  };
}

function kindOf(
  drawn: SetDrawn,
  { driven, low, vary }: { readonly driven: number; readonly low: number; readonly vary: number },
  width: number,
): Kind {
  return {
    drawn,
    ...geometryOf(drawn),
    drive: driven < 0.25 ? 'concave' : 'convex',
    heelRadius: drawn.outerDiameter / 2,
    window: [Math.round(low * 100) / 100, Math.round(low * 100) / 100 + width],
    variation: vary * width,
  };
}

/** @throws NoCones where no such teeth can be. */
function geometryOf(drawn: SetDrawn): Pick<Kind, 'cones' | 'size' | 'slopes'> {
  const cones = conesOf(drawn);
  const depth = (4 * cones.ringRadius * Math.cos(cones.ringSpiral)) / drawn.ringTeeth;
  // Mid flank lies below the pitch line, because the ring gear has the smaller share of the depth (common practice).
  const below = (0.5 - (0.21 + 0.29 / cones.ratio ** 2)) * depth;
  const slopes = {
    convex: flankSlopes(drawn, cones, 'convex', below),
    concave: flankSlopes(drawn, cones, 'concave', below),
  };
  if (!plausible(slopes, cones)) throw new NoCones('no such teeth');
  return { cones, slopes, size: { face: drawn.faceWidth, height: 1.05 * depth } };
}

const plausible = ({ convex, concave }: Kind['slopes'], { ringSpiral, limitAngle }: Cones): boolean =>
  Math.min(convex.angle, concave.angle) > degrees(9) &&
  ringSpiral > degrees(15) &&
  ringSpiral < degrees(42) &&
  Number.isFinite(limitAngle + convex.pinionOut.up + concave.pinionOut.up);
