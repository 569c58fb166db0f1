import type { Random } from '../../seeded.ts';
import { backlashAt, type WorldAxle } from './axle.ts';
import { type Knowing, type Particle, priorCloud, taught } from './cloud.ts';
import type { TrialRead } from './hands.ts';
import { driveRight, hardEdge, standsAt } from './right.ts';

interface Place {
  readonly pinionOut: number;
  readonly ringAway: number;
}

interface IdealAnswer {
  readonly stay: boolean;
  readonly place: Place;
  /** Chance of being right there, and where it stands. */
  readonly chance: number;
  readonly here: number;
}

const particles = 240;
/** Axles that look for promising places before all of them are asked. */
const scouts = 60;
const shimStep = 0.025;
const reach = 1;
/** So much chance a change must promise: the ideal comes apart for little. */
const price = 0.05;

/** The planner that knows a world and weighs readings exactly: what readings allow at all. */
export class Ideal {
  readonly #knowing: Knowing;
  readonly #random: Random;
  #cloud: readonly Particle[];

  constructor(knowing: Knowing, random: Random) {
    this.#knowing = knowing;
    this.#random = random;
    this.#cloud = priorCloud(knowing, particles, random);
  }

  /**
   * @param trials all trials so far, the newest last; to be called after each.
   * @param bound whether gears that bind get the ring gear alone, as nobody touches a pinion for a mark pressed on.
   */
  next(trials: readonly TrialRead[], bound: 'free' | 'pinion-stays' = 'free'): IdealAnswer {
    this.#cloud = taught(this.#cloud, this.#knowing, trials, this.#random);
    const last = trials.at(-1);
    const here = { pinionOut: last?.pinionOut ?? 0, ringAway: last?.ringAway ?? 0 };
    return chosen(
      this.#cloud.map(({ axle }) => axle),
      here,
      bound === 'pinion-stays' && last?.backlash === 0,
    );
  }
}

function chosen(axles: readonly WorldAxle[], here: Place, pinionStays: boolean): IdealAnswer {
  const every = Math.floor(axles.length / scouts);
  const few = axles.filter((_, index) => index % every === 0);
  const lines = (pinionStays ? [here.pinionOut] : pinionsAbout(here)).map((pinionOut) => {
    const place = { pinionOut, ringAway: ringFor(few, { pinionOut, ringAway: here.ringAway }, 0.5) };
    return { place, chance: mean(few.map((axle) => (driveRight(axle, standsAt(axle, ...tuple(place))) ? 1 : 0))) };
  });
  const best = lines.toSorted((a, b) => b.chance - a.chance).slice(0, 7);
  const places = [
    here,
    ...best.flatMap(({ place }) =>
      [0.2, 0.35, 0.5, 0.65, 0.8].map((share) => ({ ...place, ringAway: ringFor(few, place, share) })),
    ),
  ];
  const chances = chancesOf(
    axles,
    places,
    lines.map(({ place }) => place),
  );
  const stands = chances[0] ?? 0;
  const top = places
    .map((place, index) => ({ place, chance: chances[index] ?? 0 }))
    .toSorted((a, b) => b.chance - a.chance)[0];
  // Gears that bind are given room, whatever that promises.
  if (top === undefined || (!pinionStays && top.chance - stands < price))
    return { stay: true, place: here, chance: stands, here: stands };
  return { stay: false, ...top, here: stands };
}

const tuple = ({ pinionOut, ringAway }: Place): [number, number] => [pinionOut, ringAway];
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

const pinionsAbout = ({ pinionOut }: Place): number[] => {
  const count = Math.round(reach / shimStep);
  return Array.from({ length: 2 * count + 1 }, (_, n) => pinionOut + (n - count) * shimStep);
};

/** Ring gear position, in whole steps, at which the mean backlash of these axles has this share of its window. */
function ringFor(axles: readonly WorldAxle[], from: Place, share: number): number {
  const [first] = axles;
  if (first === undefined) return from.ringAway;
  const [low, high] = first.kind.window;
  const half = first.kind.variation / 2;
  const wanted = low + half + share * (high - low - 2 * half);
  const reads = mean(axles.map((axle) => backlashAt(axle, ...tuple(from))));
  const slope = mean(axles.map((axle) => axle.perAway));
  return from.ringAway + Math.round((wanted - reads) / slope / shimStep) * shimStep;
}

/** For each axle a hard coast edge counts only as far as another place, also one far from these, would avoid it. */
function chancesOf(axles: readonly WorldAxle[], places: readonly Place[], farther: readonly Place[]): number[] {
  const sums = places.map(() => 0);
  for (const axle of axles) {
    const each = places.map((place) => seenAt(axle, place));
    const matters = each.some(({ right, hard }) => right && hard);
    const free = ({ right, hard }: Seen): boolean => right && !hard;
    const avoidable = matters && (each.some(free) || farther.some((place) => free(seenAt(axle, place))));
    each.forEach(({ right, hard }, index) => {
      if (right && !(hard && avoidable)) sums[index] = (sums[index] ?? 0) + 1;
    });
  }
  return sums.map((sum) => sum / axles.length);
}

interface Seen {
  readonly right: boolean;
  readonly hard: boolean;
}

function seenAt(axle: WorldAxle, { pinionOut, ringAway }: Place): Seen {
  const shown = standsAt(axle, pinionOut, ringAway);
  return { right: driveRight(axle, shown), hard: hardEdge(shown.coast) };
}
