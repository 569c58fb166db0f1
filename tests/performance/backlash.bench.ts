import type { Spoil } from '../../hardware-sim/hands/spoil.ts';
import {
  randomSession,
  randomStation,
  spoiltStation,
  type OneStation,
  type Session,
} from '../../hardware-sim/hands/stations.ts';
import { seeded } from '../../hardware-sim/seeded.ts';
import {
  measureBacklash,
  startBacklash,
  stepBacklash,
  type BacklashSettings,
  type StationMeasured,
} from '../../src/shared/measuring/backlash/capture.ts';
import { isPress, type StreamItem } from '../../src/shared/measuring/reading.ts';
import { combine } from '../../src/shared/measuring/uncertainty/uncertainty.ts';
import { mm, seconds } from '../../src/shared/basics/quantity.ts';
import { isNone } from '../../src/shared/basics/result.ts';

/**
 * Hands-free backlash against simulated hands and gauges: how often it is right, what it refuses, whether U95 covers,
 * and what a reading costs. Every figure is printed; none is asserted here.
 */
const STATIONS = 10_000;
const SESSIONS = 500;
const SPOILT = 500;

export const itemsOf = ({ readings, presses }: Session): StreamItem[] =>
  [
    ...readings.map(({ t, value_mm }) => ({ t: seconds(t), value: value_mm })),
    ...presses.map(({ t, pedal }) => ({ t: seconds(t), pedal })),
  ].toSorted((one, other) => one.t - other.t);

/** What the technician would say of this gauge: a stated error ±e is worth e/√3, the ends of the travel are known. */
const settingsOf = ({ resolution_mm, presses, gauge }: Session): BacklashSettings => ({
  resolution: mm(resolution_mm),
  gaugeU: mm(gauge.statedError_mm / Math.sqrt(3)),
  hysteresis: mm(gauge.statedHysteresis_mm),
  travel: {
    from: mm(gauge.sign * -gauge.zero_mm),
    to: mm(gauge.sign * (gauge.travel_mm - gauge.zero_mm)),
  },
  nextBy: presses.length > 0 ? 'press' : 'itself',
});

const quantile = (values: readonly number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? NaN;

const percent = (part: number, whole: number): string => `${((100 * part) / whole).toFixed(2)} %`;

const tally = (words: Iterable<string>): string => {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts]
    .toSorted((a, b) => b[1] - a[1])
    .map(([word, count]) => `${word} ${count}`)
    .join(', ');
};

interface Valued {
  readonly station: OneStation;
  readonly measured: StationMeasured;
  readonly value: number;
}

const allowed = ({ resolution_mm, gauge }: Session, rocks: number): number =>
  resolution_mm + (3 * gauge.noise_mm) / Math.sqrt(rocks);

const isRight = ({ station, measured, value }: Valued): boolean =>
  Math.abs(value - station.asGauged_mm) <= allowed(station, measured.rocks);

function stations(print: (line: string) => void): void {
  const valued: Valued[] = [];
  const refused: string[] = [];
  let otherNumber = 0;
  for (let seed = 0; seed < STATIONS; seed += 1) {
    const station = randomStation(seeded(seed));
    const found = measureBacklash(itemsOf(station), settingsOf(station)).stations;
    const [measured] = found;
    if (measured === undefined || found.length > 1) otherNumber += 1;
    else if (isNone(measured.value)) refused.push(measured.value.none);
    else valued.push({ station, measured, value: measured.value });
  }
  const right = valued.filter(isRight).length;
  print(
    `stations ${STATIONS}: right ${right} (${percent(right, STATIONS)}), wrong ${valued.length - right}, refused ${refused.length}, none or more than one station ${otherNumber}`,
  );
  print(`  refused as: ${tally(refused) || 'none'}`);
  print(
    `  rocks to a result: median ${quantile(
      valued.map(({ measured }) => measured.rocks),
      0.5,
    )}, 95 % ${quantile(
      valued.map(({ measured }) => measured.rocks),
      0.95,
    )}`,
  );
  coverage('all', valued, print);
  const steps = [...new Set(valued.map(({ station }) => station.resolution_mm))].toSorted((a, b) => a - b);
  for (const step of steps) {
    coverage(
      `resolution ${step} mm`,
      valued.filter(({ station }) => station.resolution_mm === step),
      print,
    );
  }
  withoutGauge(valued, print);
}

/** Gauge errors are drawn anew for each station; the truth is the stem's own movement. */
function coverage(name: string, valued: readonly Valued[], print: (line: string) => void): void {
  const errors = valued.map(({ value, station }) => Math.abs(value - station.truth_mm));
  const covered = valued.filter(({ measured }, at) => (errors[at] ?? Infinity) <= measured.U95).length;
  const middle = quantile(
    valued.map(({ measured }) => measured.U95),
    0.5,
  );
  const ratio = middle / quantile(errors, 0.95);
  print(
    `  U95, ${name}: covers ${percent(covered, valued.length)}, median ${middle.toFixed(5)} mm, ${ratio.toFixed(2)} × the 95th percentile of the error`,
  );
}

/** Against what the gauge's works show: only rounding and repeatability are left, so the stopping rule stands alone. */
function withoutGauge(valued: readonly Valued[], print: (line: string) => void): void {
  const covered = valued.filter(({ station, measured, value }) => {
    const own = combine(measured.parts.filter(({ name }) => name === 'resolution' || name === 'rocks'));
    return Math.abs(value - station.asGauged_mm) <= own.U95;
  }).length;
  print(`  resolution and rocks alone cover what the gauge read: ${percent(covered, valued.length)}`);
}

const KINDS: readonly Spoil['kind'][] = [
  'base-moved',
  'pinion-moved',
  'not-held',
  'one-sided',
  'not-repeating',
  'end-of-travel',
];

/** A value from a spoilt station is counted harmless where it lies as near to the gear's clearance as a good one must. */
function spoilt(print: (line: string) => void): void {
  for (const kind of KINDS) {
    const words: string[] = [];
    for (let seed = 0; seed < SPOILT; seed += 1) {
      const station = spoiltStation(seeded(seed), kind);
      const found = measureBacklash(itemsOf(station), settingsOf(station)).stations;
      words.push(found.map((measured) => wordFor(station, measured)).join(' + ') || 'nothing said');
    }
    print(`  spoilt (${kind}): ${tally(words)}`);
  }
}

function wordFor(station: OneStation, { value, rocks }: StationMeasured): string {
  if (isNone(value)) return value.none;
  const { gauge, clearance_mm } = station;
  const gaugeError = 2 * gauge.statedError_mm + gauge.statedHysteresis_mm;
  return Math.abs(value - clearance_mm) <= allowed(station, rocks) + gaugeError ? 'value, harmless' : 'VALUE, WRONG';
}

function sessions(print: (line: string) => void): void {
  let rocked = 0;
  let right = 0;
  let otherNumber = 0;
  const refused: string[] = [];
  for (let seed = 0; seed < SESSIONS; seed += 1) {
    const session = randomSession(seeded(seed));
    const found = measureBacklash(itemsOf(session), settingsOf(session)).stations;
    rocked += session.stations.length;
    if (found.length !== session.stations.length) otherNumber += 1;
    for (const [at, { value, rocks }] of found.entries()) {
      if (isNone(value)) refused.push(value.none);
      else if (Math.abs(value - (session.stations[at]?.asGauged_mm ?? NaN)) <= allowed(session, rocks)) right += 1;
    }
  }
  print(
    `sessions ${SESSIONS}: stations ${rocked}, right ${right} (${percent(right, rocked)}), refused ${refused.length} (${tally(refused) || 'none'}), sessions with another number of stations ${otherNumber}`,
  );
}

/** Best of several rounds, because other work shares the machine. */
function cost(print: (line: string) => void): void {
  const work = Array.from({ length: 60 }, (_, seed) => randomSession(seeded(seed)));
  const streams = work.map((session) => ({ items: itemsOf(session), settings: settingsOf(session) }));
  const many = streams.reduce((sum, { items }) => sum + items.length, 0);
  let best = Infinity;
  let bare = Infinity;
  let sum = 0;
  for (let round = 0; round < 8; round += 1) {
    best = Math.min(
      best,
      timed(() => {
        for (const { items, settings } of streams) {
          const capture = startBacklash(settings);
          for (const item of items) stepBacklash(capture, item);
        }
      }),
    );
    bare = Math.min(
      bare,
      timed(() => {
        for (const { items } of streams) for (const item of items) if (!isPress(item)) sum += item.value;
      }),
    );
  }
  const each = (total_ms: number): number => (1000 * total_ms) / many;
  print(
    `cost: ${each(best).toFixed(3)} µs a reading (best of 8 over ${many} readings), ${(best / bare).toFixed(0)} × a bare loop over the same readings (${each(bare).toFixed(4)} µs, sum ${sum.toFixed(0)})`,
  );
}

function timed(work: () => void): number {
  const began = performance.now();
  work();
  return performance.now() - began;
}

export default async function bench(print: (line: string) => void): Promise<void> {
  stations(print);
  spoilt(print);
  sessions(print);
  cost(print);
}

if (import.meta.main) await bench((line) => process.stdout.write(`${line}\n`));
