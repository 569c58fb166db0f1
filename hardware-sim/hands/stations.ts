// Import from tests/performance as '../../hardware-sim/hands/stations.ts': randomStation, randomSession, spoiltStation.
import { anyIndicator } from '../gauges/anyIndicator.ts';
import { indicator, mechanismOnly, type IndicatorTraits } from '../gauges/indicator.ts';
import { MM_PER } from '../gauges/units.ts';
import type { Random } from '../seeded.ts';
import { anyHand, type Hand } from './hand.ts';
import { moments, type Doing, type Moment, type Stretch } from './motion.ts';
import { visit, type StationSetup } from './rocking.ts';
import type { Spoil } from './spoil.ts';
import { atTheEnd, drawnSpoil } from './spoilt.ts';
import { truthOf, type Planned, type StationTruth } from './truth.ts';

/** One item of the stream, in the order of time: a reading or a press of the pedal between two stations. */
interface StationReading {
  readonly t: number;
  readonly value_mm: number;
}
interface StationPress {
  readonly t: number;
  readonly pedal: 'next';
}

export interface Session {
  readonly readings: readonly StationReading[];
  /** What the hand did at each reading, in the same order: for whoever asks why a station was missed, never for the measuring. */
  readonly seen: readonly Moment[];
  readonly presses: readonly StationPress[];
  readonly stations: readonly StationTruth[];
  readonly gauge: IndicatorTraits;
  readonly resolution_mm: number;
  readonly rate_Hz: number;
  readonly hand: Hand;
}

/** A session of one station, its truth beside it. */
export interface OneStation extends Session, StationTruth {}

/** Three to a hundred readings a second, evenly over the ratio. */
const anyRate = (random: Random): number => Math.exp(random.uniform(Math.log(3), Math.log(100)));

const BACKLASH = { least: 0.1, most: 0.45 } as const;
const between = (random: Random, least: number, most: number): number =>
  least + Math.floor(random.next() * (most - least + 1));

function anySetup(
  gauge: IndicatorTraits,
  rate_Hz: number,
  rocks: readonly [number, number],
  random: Random,
): StationSetup {
  const backlash_mm = random.uniform(BACKLASH.least, BACKLASH.most);
  const lies = random.next() < 0.3;
  return {
    backlash_mm,
    // Clear of both ends: a station at the end of travel is a spoilt one.
    lowStop_mm: random.uniform(0.25, gauge.travel_mm - backlash_mm - 0.25),
    rocks: between(random, rocks[0], rocks[1]),
    firstStop: random.next() < 0.5 ? 'low' : 'high',
    liesAt: lies ? random.uniform(0.1, 0.9) : Math.round(random.next()),
    lies_s: lies ? random.uniform(0.1, 1) : 0,
    endsBack: random.next() < 0.5,
    // Five whole intervals hold five readings wherever they begin; the hundredth is for the float.
    leastRest_s: 5.01 / rate_Hz,
  };
}

const OFF_THE_TOOTH: ReadonlySet<Doing> = new Set(['lifting', 'hanging', 'lowering']);

/**
 * Every stretch at a station tagged with it; lifting belongs to none. After the last station too the stem is lifted:
 * that is how a technician says that it is done.
 */
function* work(planned: readonly Planned[], hand: Hand, random: Random): Generator<Stretch> {
  for (const [station, { setup, spoil }] of planned.entries()) {
    for (const stretch of visit(setup, station === 0 ? 'on-tooth' : 'hanging', hand, random, spoil)) {
      yield OFF_THE_TOOTH.has(stretch.doing) ? stretch : { ...stretch, station };
    }
  }
}

/** The pedal is pressed while the stem hangs, where it is pressed at all. */
function pressesIn(seen: readonly Moment[]): StationPress[] {
  const hangs = seen.filter((moment, index) => moment.doing === 'hanging' && seen[index - 1]?.doing !== 'hanging');
  return hangs.slice(0, -1).map((moment) => ({ t: moment.t_s, pedal: 'next' }));
}

function sessionOf(planned: readonly Planned[], gauge: IndicatorTraits, rate_Hz: number, random: Random): Session {
  const hand = anyHand(random);
  const start_s = random.uniform(0, 1 / rate_Hz);
  const seen = [...moments(work(planned, hand, random), rate_Hz, start_s)];
  const shown = indicator(gauge, random);
  const works = mechanismOnly(gauge);
  const gauged = seen.map((moment) => works(moment.value));
  return {
    readings: seen.map((moment) => ({ t: moment.t_s, value_mm: shown.read(moment.value).value * MM_PER[gauge.unit] })),
    seen,
    presses: random.next() < 0.3 ? pressesIn(seen) : [],
    stations: planned.map((plan, station) => truthOf(station, plan, seen, gauged)),
    gauge,
    resolution_mm: gauge.resolution * MM_PER[gauge.unit],
    rate_Hz,
    hand,
  };
}

function soleStation(session: Session): OneStation {
  const [truth] = session.stations;
  if (truth === undefined) throw new RangeError('a session without a station');
  return { ...session, ...truth };
}

interface Extent {
  /** Fewest and most rocks at a station. */
  readonly rocks?: readonly [number, number];
  /** Fewest and most stations of a session. */
  readonly stations?: readonly [number, number];
}

const ROCKS = [5, 9] as const;

/** One station from a random axle, hand, gauge and rate, and the stem lifted at its end. */
export function randomStation(random: Random, extent: Extent = {}): OneStation {
  const gauge = anyIndicator(random);
  const rate_Hz = anyRate(random);
  return soleStation(
    sessionOf([{ setup: anySetup(gauge, rate_Hz, extent.rocks ?? ROCKS, random) }], gauge, rate_Hz, random),
  );
}

/** Several stations with one hand and one gauge, the stem lifted between them and put down on another tooth. */
export function randomSession(random: Random, extent: Extent = {}): Session {
  const gauge = anyIndicator(random);
  const rate_Hz = anyRate(random);
  const [fewest, most] = extent.stations ?? [4, 12];
  const planned = Array.from({ length: between(random, fewest, most) }, () => ({
    setup: anySetup(gauge, rate_Hz, extent.rocks ?? ROCKS, random),
  }));
  return sessionOf(planned, gauge, rate_Hz, random);
}

/** One station at which something goes wrong; its `truth_mm` is then no backlash, and `clearance_mm` is. */
export function spoiltStation(random: Random, kind: Spoil['kind'], extent: Extent = {}): OneStation {
  const gauge = anyIndicator(random);
  const rate_Hz = anyRate(random);
  const setup = anySetup(gauge, rate_Hz, extent.rocks ?? ROCKS, random);
  const spoil = drawnSpoil(kind, setup, gauge, random);
  const planned = { setup: atTheEnd(setup, spoil, gauge, random), spoil };
  return soleStation(sessionOf([planned], gauge, rate_Hz, random));
}
