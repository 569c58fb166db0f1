import { seeded } from '../../../hardware-sim/seeded.ts';
import {
  axleBy,
  backlashAt,
  type Chances,
  chancesIn,
  type WorldAxle,
} from '../../../hardware-sim/worlds/axles/axle.ts';
import type { Knowing } from '../../../hardware-sim/worlds/axles/cloud.ts';
import { edgeOrder, type MarkRead, readTrial, type TrialRead } from '../../../hardware-sim/worlds/axles/hands.ts';
import { Ideal } from '../../../hardware-sim/worlds/axles/ideal.ts';
import { judgeAfter } from '../../../hardware-sim/worlds/axles/judge.ts';
import { asToldChance } from '../../../hardware-sim/worlds/axles/noticing.ts';
import {
  drawKind,
  drawLike,
  type Kind,
  type Population,
  unknowing,
} from '../../../hardware-sim/worlds/axles/population.ts';
import { canBeRight, rightAt, standsAt } from '../../../hardware-sim/worlds/axles/right.ts';
import type { Mark } from '../../../src/shared/axle/mark/mark.ts';
import type { PlanInput, TrialSeen } from '../../../src/shared/axle/plan/input.ts';
import type { Stood, Subject, Way } from './subject.ts';

/** What a technician knows of the set and says. */
export type Told = 'all' | 'counts-diameter-cut' | 'counts-diameter';

export interface FirstOrderWorld {
  readonly population: Population;
  readonly told: Told;
}

const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** An axle of the first-order truth, or nothing where no position of it is right. */
export function firstOrderSubject(world: FirstOrderWorld, seed: number): Subject | undefined {
  const random = seeded(seed * 7919 + 101);
  const kind = drawKind(random, world.population);
  return subjectBy({ world, kind, chances: Float64Array.from({ length: chancesIn }, () => random.normal(0, 1)), seed });
}

interface Draw {
  readonly world: FirstOrderWorld;
  readonly kind: Kind;
  readonly chances: Chances;
  readonly seed: number;
  /** What who knows this truth knows of axles like this one beforehand: its chances from those that are its own alone. */
  readonly about?: (own: Chances) => Chances;
}

/** The axle that these chances make of a kind of set, or nothing where no position of it is right. */
export function subjectBy({ world, kind, chances, seed, about }: Draw): Subject | undefined {
  const { population } = world;
  const axle = axleBy(population, kind, chances);
  if (!canBeRight(axle)) return undefined;
  const read = new Map<TrialSeen, TrialRead>();
  const knowing = { population, kind, ...(about === undefined ? {} : { about }) };
  const asTold = { ...knowing, ...mayBeOther(world, kind) };
  const idealOf = (who: Knowing) => (bound?: 'free' | 'pinion-stays') => idealFor({ knowing: who, seed, read, bound });
  return {
    ask: (trials) => ({ ...inputFor(world, kind), trials: [...trials] }),
    tryAt: (place, trial) => {
      const seen = readTrial(seeded(seed * 31 + trial * 7 + 1), population, axle, { ...place, trial });
      const written = writtenDown(world.population, kind, seen);
      read.set(written, seen);
      return written;
    },
    rightAt: ({ pinionOut, ringAway }) => rightAt(axle, pinionOut, ringAway),
    truthAt: (place) => truthOf(axle, place),
    asTold: ([first, second]) => asToldChance(knowing, [readBack(first), readBack(second)], seeded(seed + 80_021)),
    judge: (first) => judgeAfter(knowing, readBack(first), seeded(seed + 777)),
    observer: idealOf({ ...asTold, population: unknowing(population) }),
    ideal: idealOf(asTold),
    ...(world.told === 'all' ? {} : { idealToldAll: idealOf(knowing) }),
  };
}

/** Whoever plans knows the set no better than the technician says it. */
function mayBeOther({ told }: FirstOrderWorld, kind: Kind): Pick<Knowing, 'mayBe'> {
  if (told === 'all') return {};
  return { mayBe: (random) => drawLike(random, kind, told === 'counts-diameter' ? 'nothing-more' : 'cut') };
}

/** What stands in the notebook, as this world's hands would have written it. */
function readBack({ pinionOut_mm, ringAway_mm, backlash, pattern }: TrialSeen): TrialRead {
  const mark = ({ heel, crown, length, height, edges }: Mark): MarkRead => ({
    heel,
    crown,
    length,
    height,
    edges: edgeOrder.map((edge) => edges[edge]),
  });
  return {
    pinionOut: pinionOut_mm,
    ringAway: ringAway_mm,
    backlash: backlash.mean_mm,
    drive: mark(pattern.drive),
    coast: mark(pattern.coast),
  };
}

function truthOf(axle: WorldAxle, { pinionOut, ringAway }: Stood) {
  const { drive } = standsAt(axle, pinionOut, ringAway);
  const backlash = backlashAt(axle, pinionOut, ringAway);
  return { crown: drive.crown, heel: drive.heel, backlash, variation: axle.kind.variation };
}

interface Idealised extends Pick<Draw, 'seed'> {
  readonly knowing: Knowing;
  readonly read: ReadonlyMap<TrialSeen, TrialRead>;
  readonly bound: 'free' | 'pinion-stays' | undefined;
}

function idealFor({ knowing, seed, read, bound }: Idealised): Way {
  const ideal = new Ideal(knowing, seeded(seed + 50_021));
  return (_subject, trials) => {
    const answer = ideal.next(
      trials.map((trial) => read.get(trial)).filter((trial) => trial !== undefined),
      bound,
    );
    return { stay: answer.stay, suspect: false, alarm: undefined, place: answer.place, chance: answer.chance };
  };
}

function inputFor({ told, population }: FirstOrderWorld, { drawn, drive, window }: Kind): PlanInput {
  const cut = drawn.bladeGroups === undefined ? ('face-milled' as const) : ('face-hobbed' as const);
  const least = {
    pinionTeeth: drawn.pinionTeeth,
    ringTeeth: drawn.ringTeeth,
    outerDiameter_mm: drawn.outerDiameter,
    driveFlank: drive,
  };
  const more = {
    faceWidth_mm: drawn.faceWidth,
    offset_mm: drawn.offset,
    pinionSpiral_deg: Math.round(degrees(drawn.pinionSpiral)),
  };
  const known = { all: { ...least, ...more, cut }, 'counts-diameter-cut': { ...least, cut }, 'counts-diameter': least };
  return {
    set: known[told],
    backlashBasis: { direction: 'along-rotation', at: 'heel' },
    limits: { backlash_mm: [window[0], window[0] + population.windowWidth] },
    target: { kind: 'new-set' },
    shimStep_mm: { pinion: 0.025, side: 0.025 },
    trials: [],
  };
}

function writtenDown({ reading, backlashReading }: Population, { variation }: Kind, seen: TrialRead): TrialSeen {
  const mark = ({ edges, ...read }: MarkRead): Mark => ({
    ...read,
    slant_deg: 0,
    edges: Object.assign(
      { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as Mark['edges'],
      Object.fromEntries(edgeOrder.map((edge, index) => [edge, edges[index] ?? 'clear'])),
    ),
    U95: { heel: 2 * reading, crown: 2 * reading },
  });
  const least = Math.max(0, seen.backlash - variation / 2);
  return {
    pinionOut_mm: seen.pinionOut,
    ringAway_mm: seen.ringAway,
    backlash: {
      mean_mm: seen.backlash,
      min_mm: least,
      max_mm: seen.backlash + (seen.backlash === 0 ? 0 : variation / 2),
      U95_mm: 2 * backlashReading,
    },
    pattern: { drive: mark(seen.drive), coast: mark(seen.coast) },
  };
}
