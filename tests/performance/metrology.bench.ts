import { anyIndicator } from '../../hardware-sim/gauges/anyIndicator.ts';
import { indicator } from '../../hardware-sim/gauges/indicator.ts';
import { torqueGauge } from '../../hardware-sim/gauges/torqueGauge.ts';
import { MM_PER } from '../../hardware-sim/gauges/units.ts';
import { moments } from '../../hardware-sim/hands/motion.ts';
import { dragTruth, runoutTruth } from '../../hardware-sim/hands/turnTruth.ts';
import { turning, turningByStations, turningShaft } from '../../hardware-sim/hands/turning.ts';
import { type Random, seeded } from '../../hardware-sim/seeded.ts';
import type { Reading } from '../../src/shared/measuring/reading.ts';
import {
  finishRunout,
  type RunoutSettings,
  startRunout,
  stepRunout,
} from '../../src/shared/measuring/runout/runout.ts';
import {
  finishTorque,
  startTorque,
  stepTorque,
  type TorqueSettings,
} from '../../src/shared/measuring/torque/torque.ts';
import { rectangular } from '../../src/shared/measuring/uncertainty/uncertainty.ts';
import { retimedAll } from '../../src/shared/job/captures/retimed.ts';
import { mm, newtonMetres, radians, seconds } from '../../src/shared/basics/quantity.ts';
import { isNone, type OrNone } from '../../src/shared/basics/result.ts';

/**
 * Runout and rotating torque against simulated hands and gauges: whether U95 covers the truth, how wide it is, and what a
 * reading costs. Every figure is printed; none is asserted here.
 */
const runs = 2000;

/** One simulated measurement, and what is true of it. */
interface Simulated<Settings, Truth> {
  readonly readings: readonly Reading[];
  readonly settings: Settings;
  readonly truth: Truth;
  readonly rate_Hz: number;
}

/** What stations miss between them stands beside U95, so that a ride by stations has a truth of its own. */
interface RunoutTruths {
  readonly turn: number;
  readonly stations: number;
}

type SimulatedRunout = Simulated<RunoutSettings, RunoutTruths>;
type SimulatedTorque = Simulated<TorqueSettings, number>;

type By = 'turn' | 'stations';

/** Any indicator, any hand: once and twice a turn, 3 to 100 readings a second, gauge errors drawn anew. */
function runout(random: Random, by: By, withAngle: boolean): SimulatedRunout {
  const traits = anyIndicator(random);
  const [once, at, twice, at2] = [
    random.uniform(0.005, 0.06),
    random.uniform(0, 6),
    random.uniform(0, 0.015),
    random.uniform(0, 6),
  ];
  const surfaceAt = (angle: number): number => once * Math.cos(angle - at) + twice * Math.cos(2 * angle - at2);
  const start_rad = random.uniform(0, 6);
  const hand = {
    surfaceAt,
    preload_mm: 1,
    start_rad,
    speed_rad_s: random.uniform(0.4, 2),
    unevenness: random.uniform(0, 0.5),
    rest_s: random.uniform(0.8, 2),
  };
  const gauge = indicator({ ...traits, zero_mm: 0, travel_mm: 5 }, random);
  const way = by === 'turn' ? turning(hand, random.uniform(1.02, 1.3), random) : turningByStations(hand, 8, random);
  const rate_Hz = random.uniform(3, 100);
  const readings = [...moments(way, rate_Hz)].map(({ t_s, value, angle_rad = 0 }) => ({
    t: seconds(t_s),
    value: gauge.read(value).value * MM_PER[traits.unit],
    ...(withAngle ? { angle: radians(angle_rad % (2 * Math.PI)) } : {}),
  }));
  const settings: RunoutSettings = {
    resolution: mm(traits.resolution * MM_PER[traits.unit]),
    gaugeU: mm(rectangular(traits.statedError_mm)),
    hysteresis: mm(traits.statedHysteresis_mm),
    ...(by === 'turn' ? { mode: 'continuous' } : { mode: 'stations', stations: 8 }),
  };
  const heights = Array.from({ length: 8 }, (_, station) => surfaceAt(start_rad + (station * Math.PI) / 4));
  const truth = { turn: runoutTruth(surfaceAt).tir_mm, stations: Math.max(...heights) - Math.min(...heights) };
  return { readings, settings, truth, rate_Hz };
}

/** A shaft with a ripple, pulled by hand through two to five turns, read by a gauge with a scale error of its own. */
function torque(random: Random, withAngle: boolean): SimulatedTorque {
  const running = random.uniform(0.5, 4);
  const [once, at, twice, at2] = [
    random.uniform(0, 0.12),
    random.uniform(0, 6),
    random.uniform(0, 0.06),
    random.uniform(0, 6),
  ];
  const turn = {
    dragAt: (angle: number): number => running * (1 + once * Math.cos(angle - at) + twice * Math.cos(2 * angle - at2)),
    breakawayFactor: random.uniform(1.05, 1.5),
    start_rad: random.uniform(0, 6),
    turns: random.uniform(2.1, 5),
    speed_rad_s: random.uniform(1, 4),
    unevenness: random.uniform(0, 0.08),
    rest_s: 1,
  };
  const stated_percent = 2;
  const resolution = random.uniform(0, 1) < 0.5 ? 0.01 : 0.02;
  const gauge = torqueGauge(
    {
      unit: 'N.m',
      resolution,
      noise_Nm: resolution / 2,
      error_percent: random.uniform(-stated_percent, stated_percent),
      statedError_percent: stated_percent,
      range_Nm: 20,
      sign: 1,
    },
    random,
  );
  const rate_Hz = random.uniform(20, 100);
  const readings = [...moments(turningShaft(turn, random), rate_Hz)].map(({ t_s, value, angle_rad = 0 }) => ({
    t: seconds(t_s),
    value: gauge.read(value).value,
    ...(withAngle ? { angle: radians(angle_rad) } : {}),
  }));
  const settings = { resolution: newtonMetres(resolution), gaugeU_share: rectangular(stated_percent / 100) };
  return { readings, settings, truth: dragTruth(turn).running_Nm, rate_Hz };
}

interface Answer {
  readonly value: OrNone<number>;
  readonly U95: number;
  readonly truth: number;
  readonly rate_Hz: number;
}

function ofRunout({ readings, settings, truth, rate_Hz }: SimulatedRunout): Answer {
  const capture = startRunout(settings);
  for (const reading of readings) stepRunout(capture, reading);
  const { tir, U95, stations } = finishRunout(capture);
  // Where stations could not be told apart the ride was judged as a turn, and says so.
  return { value: tir, U95, truth: stations === undefined ? truth.turn : truth.stations, rate_Hz };
}

function ofTorque({ readings, settings, truth, rate_Hz }: SimulatedTorque): Answer {
  const capture = startTorque(settings);
  for (const reading of readings) stepTorque(capture, reading);
  const { running, U95 } = finishTorque(capture);
  return { value: running, U95, truth, rate_Hz };
}

const quantile = (values: readonly number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;

/** How often U95 holds the truth, and how wide it is beside what the error really was. */
function coverage(name: string, unit: string, answers: readonly Answer[]): string {
  const valued = answers.flatMap(({ value, U95, truth }) =>
    isNone(value) ? [] : [{ error: Math.abs(value - truth), U95 }],
  );
  const covered = valued.filter(({ error, U95 }) => error <= U95).length;
  const doubts = valued.map(({ U95 }) => U95);
  const errors = valued.map(({ error }) => error);
  const wide = (quantile(doubts, 0.5) / quantile(errors, 0.95)).toFixed(2);
  return [
    `${name}: U95 covers ${((100 * covered) / valued.length).toFixed(2)} % of ${valued.length}`,
    `median ${quantile(doubts, 0.5).toFixed(4)} ${unit}, ${wide} × the 95th percentile of the error`,
    `no number ${answers.length - valued.length}`,
  ].join(', ');
}

const drawn = <Drawn>(draw: (random: Random) => Drawn, count: number, from = 0): readonly Drawn[] =>
  Array.from({ length: count }, (_, seed) => draw(seeded(from + seed)));

function timed(work: () => void): number {
  const began = performance.now();
  work();
  return performance.now() - began;
}

const rounds = 8;

/** Best of several rounds, because other work shares the machine; beside it a bare loop over the same readings. */
function cost<Drawn extends { readonly readings: readonly Reading[] }>(
  name: string,
  streams: readonly Drawn[],
  measure: (stream: Drawn) => void,
): string {
  const many = streams.reduce((sum, { readings }) => sum + readings.length, 0);
  let [best, bare, sum] = [Infinity, Infinity, 0];
  for (let round = 0; round < rounds; round += 1) {
    const measuring = timed(() => {
      for (const stream of streams) measure(stream);
    });
    const looking = timed(() => {
      for (const { readings } of streams) for (const { value } of readings) sum += value;
    });
    [best, bare] = [Math.min(best, measuring), Math.min(bare, looking)];
  }
  const each = (total_ms: number): number => (1000 * total_ms) / many;
  return `  ${name}: ${each(best).toFixed(3)} µs a reading (best of ${rounds} over ${many}), ${(best / bare).toFixed(0)} × a bare loop (${each(bare).toFixed(4)} µs, sum ${sum.toFixed(0)})`;
}

const stepThroughRunout = ({ readings, settings }: SimulatedRunout): void => {
  const capture = startRunout(settings);
  for (const reading of readings) stepRunout(capture, reading);
};

const stepThroughTorque = ({ readings, settings }: SimulatedTorque): void => {
  const capture = startTorque(settings);
  for (const reading of readings) stepTorque(capture, reading);
};

/** A gauge that reads so seldom leaves few readings on a turn. */
const slow_Hz = 15;

const angled = (withAngle: boolean): string => (withAngle ? ' with angle' : '');

export default async function bench(print: (line: string) => void): Promise<void> {
  const manners = [false, true].flatMap((withAngle) => [
    { by: 'turn' as const, withAngle },
    { by: 'stations' as const, withAngle },
  ]);
  for (const { by, withAngle } of manners) {
    const answers = drawn((random) => runout(random, by, withAngle), runs).map(ofRunout);
    const [seldom, often] = [
      answers.filter(({ rate_Hz }) => rate_Hz < slow_Hz),
      answers.filter(({ rate_Hz }) => rate_Hz >= slow_Hz),
    ];
    print(coverage(`runout by ${by}${angled(withAngle)}, ${slow_Hz} to 100 readings/s`, 'mm', often));
    print(coverage(`  3 to ${slow_Hz} readings/s`, 'mm', seldom));
  }
  for (const withAngle of [false, true]) {
    const answers = drawn((random) => torque(random, withAngle), runs, 3000).map(ofTorque);
    print(coverage(`running torque${angled(withAngle)}`, 'N·m', answers));
  }
  print('cost:');
  for (const { by, withAngle } of manners) {
    const streams = drawn((random) => runout(random, by, withAngle), 80, 7000);
    print(cost(`runout by ${by}${angled(withAngle)}`, streams, stepThroughRunout));
  }
  for (const withAngle of [false, true]) {
    const streams = drawn((random) => torque(random, withAngle), 80, 8000);
    print(cost(`torque${angled(withAngle)}`, streams, stepThroughTorque));
  }
  const arriving = drawn((random) => runout(random, 'stations', false), 80, 7000);
  print(
    cost('the stage before each of them that retimes arrivals', arriving, ({ readings }) => void retimedAll(readings)),
  );
}

if (import.meta.main) await bench((line) => process.stdout.write(`${line}\n`));
