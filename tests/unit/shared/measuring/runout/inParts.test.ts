import { describe, expect, it } from 'vitest';
import { type Moment, moments } from '../../../../../hardware-sim/hands/motion.ts';
import { type SurfaceTurn, turningByStations } from '../../../../../hardware-sim/hands/turning.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { mm, seconds } from '../../../../../src/shared/basics/quantity.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { finishRunout, lastStation, runoutInParts } from '../../../../../src/shared/measuring/runout/runout.ts';
import { trueIndicator } from '../../../../support/streams.ts';

const stations = 8;
const settings = { resolution: mm(0.001), mode: 'stations', stations } as const;
const turn: SurfaceTurn = {
  surfaceAt: (angle_rad) => 0.04 * Math.cos(angle_rad - 0.7),
  preload_mm: 1,
  start_rad: 0,
  speed_rad_s: 1.5,
  unevenness: 0.2,
  rest_s: 1.2,
};

/** What an indicator shows of a turn by stations, each reading with what the hand did then. */
function ridden(seed: number): readonly (Moment & { readonly shown: number })[] {
  const shows = trueIndicator(seeded(seed));
  return [...moments(turningByStations(turn, stations, seeded(seed)), 100)].map((moment) => ({
    ...moment,
    shown: shows.read(moment.value).value,
  }));
}
type Ridden = ReturnType<typeof ridden>;

const items = (part: Ridden, shift_s = 0): readonly StreamItem[] =>
  part.map(({ t_s, shown }) => ({ t: seconds(t_s + shift_s), value: shown }));

/** The readings of the rest at a station, by its number from 1, the first time it is come to. */
function restAt(whole: Ridden, number: number): Ridden {
  const first = whole.findIndex((one) => one.station === number - 1 && one.doing === 'pausing');
  const length = whole.slice(first).findIndex((one) => one.doing !== 'pausing');
  return whole.slice(first, first + length);
}

const after = (whole: Ridden, t_s: number): Ridden => whole.filter((one) => one.t_s > t_s);
const upTo = (whole: Ridden, t_s: number): Ridden => whole.filter((one) => one.t_s <= t_s);
const endOf = (rest: Ridden): number => rest.at(-1)?.t_s ?? 0;

/** Taken in two parts, the second on a clock that began anew, as that of a bench that was started again. */
function inTwo(first: Ridden, second: Ridden) {
  const runout = runoutInParts(settings);
  for (const item of items(first)) runout.step(item);
  runout.breakOff();
  const events = items(second, -(second[0]?.t_s ?? 0)).flatMap((item) => runout.step(item));
  return { runout, events };
}

const valuesOf = ({ capture }: ReturnType<typeof runoutInParts>): readonly number[] =>
  (finishRunout(capture).stations ?? []).map(({ value }) => value);

function whole(seed: number): readonly number[] {
  const runout = runoutInParts(settings);
  for (const item of items(ridden(seed))) runout.step(item);
  return valuesOf(runout);
}

describe('a runout at stations that was broken off', () => {
  it.each([1, 2, 3, 4, 5])('goes on at the next station once the last one reads the same again (seed %i)', (seed) => {
    const all = ridden(seed);
    for (const number of [1, 3, 7]) {
      const rest = restAt(all, number);
      const inRest = (rest[0]?.t_s ?? 0) + 0.7;
      const onTheWay = endOf(rest) + 0.15;
      for (const [name, first, second] of [
        ['broken off in the rest', upTo(all, inRest), [...rest, ...after(all, endOf(rest))]],
        ['broken off on the way to the next', upTo(all, onTheWay), [...rest, ...after(all, endOf(rest))]],
      ] as const) {
        const { runout, events } = inTwo(first, second);
        const values = valuesOf(runout);
        expect(values, `${name} after ${number}`).toHaveLength(stations);
        for (const [index, value] of whole(seed).entries())
          expect(Math.abs((values[index] ?? Number.NaN) - value), `${name} after ${number}`).toBeLessThan(0.003);
        // What was found again is told under the number it has, and times are those of the clock that runs now.
        const told = events.filter((event) => event.kind === 'station').map((event) => event.number);
        expect(told, name).toEqual(Array.from({ length: told.length }, (_, index) => number + index));
        expect(events.every(({ t }) => t >= -1 && t <= 60)).toBe(true);
      }
    }
  });

  it('counts nothing while it stands anywhere else, and goes on when it comes back', () => {
    const all = ridden(3);
    const third = restAt(all, 3);
    const { runout, events } = inTwo(upTo(all, endOf(third)), restAt(all, 6));
    expect(events).toEqual([]);
    expect(lastStation(runout.capture)?.number).toBe(3);
    const clock_s = 100 - (third[0]?.t_s ?? 0);
    for (const item of items([...third, ...after(all, endOf(third))], clock_s)) runout.step(item);
    expect(valuesOf(runout)).toHaveLength(stations);
  });

  it('begins again where that is wanted', () => {
    const all = ridden(4);
    const { runout } = inTwo(upTo(all, endOf(restAt(all, 3))), restAt(all, 6));
    expect(runout.step({ t: seconds(90), pedal: 'again' }).map(({ kind }) => kind)).toEqual(['again']);
    for (const item of items(all, 100)) runout.step(item);
    expect(valuesOf(runout)).toHaveLength(stations);
  });

  it('leaves nothing of a turn without a stop, nor of one where no station was read', () => {
    for (const mode of ['continuous', 'stations'] as const) {
      const runout = runoutInParts({ ...settings, mode });
      const moving = ridden(5).filter(({ doing }) => doing === 'turning');
      for (const item of items(mode === 'stations' ? moving.slice(0, 20) : moving)) runout.step(item);
      runout.breakOff();
      expect(lastStation(runout.capture)).toBeUndefined();
      expect(isNone(finishRunout(runout.capture).tir)).toBe(true);
    }
  });
});

describe('a runout at stations that are pressed', () => {
  const pressAt = (t_s: number): StreamItem => ({ t: seconds(t_s), pedal: 'next' });

  /** Readings with a press shortly before each rest ends. */
  function pressed(part: Ridden, shift_s = 0): readonly StreamItem[] {
    return part.flatMap((one, index) => {
      const leaves =
        one.doing === 'pausing' && part[index + 15]?.doing === 'turning' && part[index + 14]?.doing === 'pausing';
      return leaves ? [...items([one], shift_s), pressAt(one.t_s + shift_s)] : items([one], shift_s);
    });
  }

  it.each([1, 2, 3])('counts the press at the station that is read once more for nothing (seed %i)', (seed) => {
    const all = ridden(seed);
    const straight = runoutInParts(settings);
    for (const item of pressed(all)) straight.step(item);
    const third = restAt(all, 3);
    const runout = runoutInParts(settings);
    for (const item of pressed(upTo(all, endOf(third) + 0.1))) runout.step(item);
    runout.breakOff();
    // Turned round from the first station again, with the pedal at each of them.
    const told = pressed(all, -3).flatMap((item) => runout.step(item));
    expect(told.filter(({ kind }) => kind === 'station').map((one) => 'number' in one && one.number)).toEqual([
      3, 4, 5, 6, 7, 8,
    ]);
    const [values, whole] = [valuesOf(runout), valuesOf(straight)];
    expect(values).toHaveLength(stations);
    for (const [index, value] of whole.entries()) expect(values[index]).toBeCloseTo(value, 2);
  });
});
