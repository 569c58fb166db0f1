import type { Assembled } from '../axle/assembled.ts';
import { faultsFrom } from '../faults/named.ts';
import { steadyHand, type Hand } from '../hands/hand.ts';
import { hold, type Stretch } from '../hands/motion.ts';
import { lower, raise, visit } from '../hands/rocking.ts';
import type { Spoil } from '../hands/spoil.ts';
import { dragTruth, runoutTruth, type DragTruth, type RunoutTruth } from '../hands/turnTruth.ts';
import { turning, turningByStations, turningShaft } from '../hands/turning.ts';
import type { LineKind } from '../lines/line.ts';
import { realPace } from '../lines/play.ts';
import { seeded, type Random } from '../seeded.ts';
import { errorCurve, indicator, type IndicatorTraits } from './indicator.ts';
import type { LineShape } from './lineShape.ts';
import { liveGauge, type LiveGauge, type Sends } from './live.ts';
import { torqueGauge, type TorqueTraits } from './torqueGauge.ts';

/** How one of the two gauges is made and how it talks; what is left out is an ordinary gauge in good order. */
interface GaugeChoice<Traits> {
  readonly traits?: Partial<Traits>;
  readonly shape?: LineShape;
  readonly sends?: Sends;
  readonly rate_Hz?: number;
  /** A list of faults as `faultsFrom` reads it. */
  readonly faults?: string;
}

export interface SimulatedGaugesSetup {
  /** The axle as it stands now: asked anew at each action, so that the driver may take it apart and put it together. */
  readonly axle: () => Assembled;
  readonly seed: number;
  readonly rate_Hz?: number;
  readonly kind?: LineKind;
  /** How much faster than the real clock hands and gauges work; for tests that need not wait. */
  readonly speed?: number;
  readonly indicator?: GaugeChoice<IndicatorTraits>;
  readonly torque?: GaugeChoice<TorqueTraits>;
}

interface RockStation {
  readonly gearAngle_rad: number;
  readonly spoil?: Spoil;
}
export interface RockTruth extends RockStation {
  /** The gears' own clearance at the heel, along rotation. */
  readonly backlash_mm: number;
  /** Clearance and mean give under this hand: what a perfect indicator reads. */
  readonly held_mm: number;
  readonly rocks: number;
}
interface RockOptions {
  readonly hand?: Hand;
  /** Rocks at each station; with `enough` the most there are. */
  readonly rocks?: number;
  /** Whether the hand has been told that this station (from 0) is done. */
  readonly enough?: (station: number) => boolean;
}

interface PushOptions {
  readonly hand?: Hand;
  /** Pushes, each with its pull; with `enough` the most there are. */
  readonly strokes?: number;
  readonly enough?: () => boolean;
}
interface PushTruth {
  readonly play_mm: number;
}

interface FaceTurnOptions {
  readonly surface: 'back-face' | 'flange';
  /** Without it the turn is continuous. */
  readonly stations?: number;
  readonly start_rad?: number;
  readonly speed_rad_s?: number;
  readonly rest_s?: number;
  /**
   * The hand's foot on the pedal: once when the stem sits and the turn may begin, once when it has ended; with stations
   * once at each, while the hand still rests there.
   */
  readonly pedal?: () => void;
}
export interface SimulatedIndicator extends LiveGauge {
  readonly traits: IndicatorTraits;
  /** Rocks the gear at so many equal stations, or at these; lowers the stem before each and lifts it after. */
  rock(stations: number | readonly RockStation[], options?: RockOptions): Promise<readonly RockTruth[]>;
  /** Pushes the case to and fro along its axis, the stem on its end. */
  push(options?: PushOptions): Promise<PushTruth>;
  /** Turns a surface once past the indicator. */
  turn(options: FaceTurnOptions): Promise<RunoutTruth>;
}

interface ShaftTurnOptions {
  /** With the case out of the housing, or in it. */
  readonly drag: 'pinion' | 'total';
  readonly turns?: number;
  readonly speed_rad_s?: number;
  readonly rest_s?: number;
}
interface SimulatedTorqueGauge extends LiveGauge {
  readonly traits: TorqueTraits;
  turn(options: ShaftTurnOptions): Promise<DragTruth>;
}

export interface SimulatedGauges {
  readonly indicator: SimulatedIndicator;
  readonly torque: SimulatedTorqueGauge;
  end(): Promise<void>;
}

/** How far an ordinary gauge reads either way from its zero, wherever that is set: mm, N·m. */
export const ordinaryReach = { indicator: 10, torque: 25 } as const;

const ordinaryIndicator = (random: Random): IndicatorTraits => ({
  unit: 'mm',
  resolution: 0.001,
  noise_mm: 0.0006,
  hysteresis_mm: 0.001,
  errorAt: errorCurve(0.002, random),
  statedError_mm: 0.004,
  statedHysteresis_mm: 0.002,
  travel_mm: ordinaryReach.indicator,
  sign: 1,
  zero_mm: 2,
});

const ordinaryTorqueGauge = (random: Random): TorqueTraits => ({
  unit: 'N.m',
  resolution: 0.01,
  noise_Nm: 0.01,
  error_percent: random.uniform(-1, 1),
  statedError_percent: 2,
  range_Nm: ordinaryReach.torque,
  sign: 1,
});

const evenly = (stations: number): RockStation[] =>
  Array.from({ length: stations }, (_, station) => ({ gearAngle_rad: (2 * Math.PI * station) / stations }));

/** The stem on a tooth, somewhere in the middle of its travel: another place at each. */
function atStation(
  truth: RockTruth,
  hand: Hand,
  travel_mm: number,
  random: Random,
  enough?: () => boolean,
): Generator<Stretch> {
  const setup = {
    backlash_mm: truth.backlash_mm,
    lowStop_mm: random.uniform(0.3, 0.7) * travel_mm,
    rocks: truth.rocks,
    firstStop: 'low',
    liesAt: 0,
    lies_s: 0,
    endsBack: false,
    leastRest_s: 0,
    ...(enough === undefined ? {} : { enough }),
  } as const;
  return visit(setup, 'hanging', hand, random, truth.spoil);
}

/** Motions in a row, each begun only when the one before has ended: what was heard meanwhile may shorten it. */
function* oneAfterTheOther<T>(
  things: readonly T[],
  motion: (thing: T, place: number) => Generator<Stretch>,
): Generator<Stretch> {
  for (const [place, thing] of things.entries()) yield* motion(thing, place);
}

/** Turns by stations and presses at the end of each pause; back at the first, the hand only looks. */
function* pressingAt(turn: Iterable<Stretch>, stations: number, press: () => void): Generator<Stretch> {
  let paused = 0;
  for (const stretch of turn) {
    yield stretch;
    if (stretch.doing !== 'pausing') continue;
    paused += 1;
    if (paused <= stations) press();
  }
}

const liveChoice = (setup: SimulatedGaugesSetup, choice: GaugeChoice<unknown> | undefined, random: Random) => ({
  rate_Hz: choice?.rate_Hz ?? setup.rate_Hz ?? 100,
  kind: setup.kind,
  pace: realPace(setup.speed),
  shape: choice?.shape,
  sends: choice?.sends,
  misbehaviour: choice?.faults === undefined ? undefined : faultsFrom(choice.faults, random),
});

async function simulatedIndicator(setup: SimulatedGaugesSetup, random: Random): Promise<SimulatedIndicator> {
  const traits = { ...ordinaryIndicator(random), ...setup.indicator?.traits };
  const live = await liveGauge({ gauge: indicator(traits, random), ...liveChoice(setup, setup.indicator, random) });

  function truthOf(station: RockStation, hand: Hand, rocks: number): RockTruth {
    const backlash_mm = setup.axle().backlashAt(station.gearAngle_rad);
    return { ...station, backlash_mm, held_mm: backlash_mm + hand.press_mm.low + hand.press_mm.high, rocks };
  }

  return {
    ...live,
    traits,
    async rock(stations, options = {}) {
      const hand = options.hand ?? steadyHand('fast');
      const places = typeof stations === 'number' ? evenly(stations) : stations;
      const truths = places.map((place) => truthOf(place, hand, options.rocks ?? 5));
      const { enough } = options;
      await live.run(
        oneAfterTheOther(truths, (truth, station) =>
          atStation(truth, hand, traits.travel_mm, random, enough === undefined ? undefined : () => enough(station)),
        ),
      );
      return truths;
    },
    async push(options = {}) {
      const hand = options.hand ?? steadyHand('fast');
      const truth = { play_mm: setup.axle().endPlay_mm };
      const pushed = {
        gearAngle_rad: 0,
        backlash_mm: truth.play_mm,
        held_mm: truth.play_mm,
        rocks: options.strokes ?? 5,
      };
      await live.run(atStation(pushed, hand, traits.travel_mm, random, options.enough));
      return truth;
    },
    async turn(options) {
      const axle = setup.axle();
      const surfaceAt = (angle_rad: number): number =>
        options.surface === 'flange' ? axle.flangeAt(angle_rad) : axle.backFaceAt(angle_rad);
      const { start_rad = 0, speed_rad_s = 2 * Math.PI * 0.3, rest_s = 0.4 } = options;
      const preload_mm = traits.travel_mm * random.uniform(0.3, 0.6);
      const surface = { surfaceAt, preload_mm, start_rad, speed_rad_s, unevenness: 0.3, rest_s };
      const hand = steadyHand('fast');
      const sits_mm = preload_mm + surfaceAt(start_rad);
      // The foot waits until the stem has settled, and the stem stays a moment after the turn.
      await live.run([...lower(sits_mm, hand, random), hold('pausing', rest_s, sits_mm)]);
      const { pedal = () => undefined, stations } = options;
      if (stations === undefined) {
        pedal();
        await live.run(turning(surface, 1.03, random));
        pedal();
      } else await live.run(pressingAt(turningByStations(surface, stations, random), stations, pedal));
      const ends_mm = preload_mm + surfaceAt(start_rad + 2 * Math.PI * (stations === undefined ? 1.03 : 1));
      await live.run([hold('pausing', rest_s, ends_mm), ...raise(ends_mm, hand, random)]);
      return runoutTruth(surfaceAt);
    },
  };
}

async function simulatedTorqueGauge(setup: SimulatedGaugesSetup, random: Random): Promise<SimulatedTorqueGauge> {
  const traits = { ...ordinaryTorqueGauge(random), ...setup.torque?.traits };
  const live = await liveGauge({ gauge: torqueGauge(traits, random), ...liveChoice(setup, setup.torque, random) });
  return {
    ...live,
    traits,
    async turn(options) {
      const axle = setup.axle();
      const dragAt = (angle_rad: number): number =>
        options.drag === 'pinion' ? axle.pinionDragAt(angle_rad) : axle.totalDragAt(angle_rad);
      const { turns = 3, speed_rad_s = 2 * Math.PI, rest_s = 0.5 } = options;
      const start_rad = random.uniform(0, 2 * Math.PI);
      const shaft = { dragAt, breakawayFactor: axle.breakawayFactor, start_rad, turns, speed_rad_s, rest_s };
      await live.run(turningShaft({ ...shaft, unevenness: 0.04 }, random));
      return dragTruth(shaft);
    },
  };
}

/**
 * An indicator and a torque gauge on lines of their own, worked by a hand on the axle twin. Idle, each sends what it
 * last felt; each action settles when its motion ends, with what was true.
 */
export async function simulatedGauges(setup: SimulatedGaugesSetup): Promise<SimulatedGauges> {
  // One stream of chance each, so that what one gauge does leaves the other's readings as they were.
  const indicatorGauge = await simulatedIndicator(setup, seeded(setup.seed));
  const torque = await simulatedTorqueGauge(setup, seeded(setup.seed + 1));
  return {
    indicator: indicatorGauge,
    torque,
    async end() {
      await Promise.all([indicatorGauge.end(), torque.end()]);
    },
  };
}
