import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  finishRunout,
  type RunoutEvent,
  type RunoutMeasured,
  type RunoutSettings,
  runoutSoFar,
  startRunout,
  stepRunout,
} from '../../../../../src/shared/measuring/runout/runout.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { degrees, mm, radians, seconds, toDegrees } from '../../../../../src/shared/basics/quantity.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';

const resolution = mm(0.001);
const rounded = (value: number) => Math.round(value / resolution) * resolution;

function measure(settings: Partial<RunoutSettings>, items: readonly StreamItem[]): RunoutMeasured {
  const capture = startRunout({ resolution, mode: 'continuous', ...settings });
  for (const item of items) stepRunout(capture, item);
  return finishRunout(capture);
}

/** One turn and a bit at 50 readings a second, ten seconds a turn, with or without its angle. */
const turn = (surface: (angle: number) => number, withAngle: boolean, turns = 1.05): readonly StreamItem[] =>
  Array.from({ length: Math.round(500 * turns) }, (_, i) => {
    const angle = (2 * Math.PI * i) / 500;
    return {
      t: seconds(i / 50),
      value: rounded(surface(angle)),
      ...(withAngle ? { angle: radians(angle % (2 * Math.PI)) } : {}),
    };
  });

/** A second at each place, half a second on the way; back to the first at the end. */
const byStations = (n: number, surface: (angle: number) => number, withAngle: boolean): readonly StreamItem[] =>
  Array.from({ length: (n + 1) * 75 }, (_, i) => {
    const [station, within] = [Math.floor(i / 75), i % 75];
    const angle = ((station + Math.max(0, within - 50) / 25) * 2 * Math.PI) / n;
    return {
      t: seconds(i / 50),
      value: rounded(surface(angle)),
      ...(withAngle ? { angle: radians(angle % (2 * Math.PI)) } : {}),
    };
  }).slice(0, n * 75 + 50);

/** Readings sent one at a time by a button. */
const sent = (values: readonly number[], places?: readonly number[]): readonly StreamItem[] =>
  values.map((value, i) => ({
    t: seconds(2 * i),
    value,
    ...(places === undefined ? {} : { angle: degrees(places[i] ?? 0) }),
  }));

const wobble = (angle: number) => 0.5 + 0.03 * Math.cos(angle - 1) + 0.006 * Math.cos(2 * angle - 0.5);
const trueTir = (surface: (angle: number) => number) => {
  const heights = Array.from({ length: 3600 }, (_, i) => surface((i * Math.PI) / 1800));
  return Math.max(...heights) - Math.min(...heights);
};
const numberOf = (value: unknown): number => (typeof value === 'number' ? value : Number.NaN);

describe('a continuous turn', () => {
  it('with its angle gives TIR, both harmonics and the places of their high spots', () => {
    const found = measure({}, turn(wobble, true));
    expect(numberOf(found.tir)).toBeCloseTo(trueTir(wobble), 2.7);
    const [first, second] = isNone(found.harmonics) ? [] : found.harmonics;
    expect(first?.amplitude).toBeCloseTo(0.03, 4);
    expect(toDegrees(first?.highSpot ?? radians(0))).toBeCloseTo((180 / Math.PI) * 1, 0);
    expect(second?.amplitude).toBeCloseTo(0.006, 4);
    expect(numberOf(found.missAtWorst)).toBeLessThan(0.0002);
    expect(found).toMatchObject({ shape: 'eccentric', flags: [] });
    expect(found).not.toHaveProperty('stations');
  });

  it('says when few readings fell on the turn, and counts what may lie between them', () => {
    const seldom = turn(wobble, true).filter((_, i) => i % 25 === 0);
    const found = measure({}, seldom);
    expect(found.flags).toContain('few-readings');
    expect(found.parts.find(({ name }) => name === 'between readings')?.u).toBeGreaterThan(0.0003);
    expect(Math.abs(numberOf(found.tir) - trueTir(wobble))).toBeLessThan(found.U95);
  });

  it('without angle gives TIR, says a turn was assumed and withholds the harmonics', () => {
    const found = measure({}, turn(wobble, false));
    expect(numberOf(found.tir)).toBeCloseTo(trueTir(wobble), 2.5);
    expect(found).toMatchObject({ harmonics: { none: 'no-angle' }, flags: ['turn-assumed'], shape: 'unknown' });
  });

  it('counts from the first press to the last, where the turn is marked', () => {
    const rough = (angle: number) => wobble(angle) + 0.3 * Math.sin(angle) ** 2;
    const [before, marked, after] = [turn(rough, false, 1), turn(wobble, false, 1), turn(rough, false)];
    const shifted = (items: readonly StreamItem[], by: number) =>
      items.map((item) => ({ ...item, t: seconds(item.t + by) }));
    const press = (t: number): StreamItem => ({ t: seconds(t), pedal: 'next' });
    const found = measure({}, [...before, press(9.99), ...shifted(marked, 10), press(19.99), ...shifted(after, 20)]);
    expect(numberOf(found.tir)).toBeCloseTo(trueTir(wobble), 2.5);
    expect(found.flags).toEqual([]);
  });

  it('may be asked for while it goes on', () => {
    const [asked, alone] = [startRunout({ resolution, mode: 'auto' }), startRunout({ resolution, mode: 'auto' })];
    for (const item of turn(wobble, true)) {
      stepRunout(asked, item);
      stepRunout(alone, item);
      if (Math.abs((item.t % 1) - 0.5) < 0.005) finishRunout(asked);
    }
    expect(finishRunout(asked)).toEqual(finishRunout(alone));
    expect(asked).toEqual(alone);
  });

  it('is refused when it was not a whole one', () => {
    expect(measure({}, turn(wobble, true, 0.8)).tir).toEqual({ none: 'part-turn' });
    expect(measure({}, []).tir).toEqual({ none: 'nothing-measured' });
  });

  it('that does not come back to where it began says so, and is refused when that is most of it', () => {
    const creeping = (by: number) =>
      turn(wobble, true, 1.5).map((item, i) =>
        'value' in item ? { ...item, value: rounded(item.value + (by * i) / 500) } : item,
      );
    const some = measure({}, creeping(0.012));
    expect(some.flags).toContain('drift');
    expect(some.parts.map(({ name }) => name)).toContain('not coming back');
    expect(measure({}, creeping(0.2)).tir).toEqual({ none: 'drift' });
  });

  it('leaves a single wild reading out and says so', () => {
    const items = turn(wobble, true).map((item, i) => (i === 200 ? { ...item, value: 7 } : item));
    const found = measure({}, items);
    expect(numberOf(found.tir)).toBeCloseTo(trueTir(wobble), 2.7);
    expect(found.flags).toEqual(['spike']);
  });

  it('is refused when the gauge changes its unit on the way', () => {
    const items = turn(wobble, true).map((item, i) =>
      'value' in item && i > 300 ? { ...item, value: item.value / 25.4 } : item,
    );
    expect(measure({}, items)).toMatchObject({
      tir: { none: 'unit-jump' },
      flags: expect.arrayContaining(['unit-jump']) as unknown,
    });
  });

  it('starts afresh on the pedal', () => {
    const capture = startRunout({ resolution, mode: 'continuous' });
    for (const item of turn(() => 3, true)) stepRunout(capture, item);
    expect(stepRunout(capture, { t: seconds(11), pedal: 'again' })).toEqual([{ kind: 'again', t: 11 }]);
    expect(runoutSoFar(capture)).toBeUndefined();
    for (const item of turn(wobble, true)) stepRunout(capture, { ...item, t: seconds(item.t + 12) });
    expect(numberOf(finishRunout(capture).tir)).toBeCloseTo(trueTir(wobble), 2.7);
  });

  it('tells when the turn is complete, once', () => {
    const capture = startRunout({ resolution, mode: 'continuous' });
    const events = turn(wobble, true, 1.5).flatMap((item) => stepRunout(capture, item));
    expect(events.map(({ kind }) => kind)).toEqual(['turn']);
  });

  it('does not depend on where it begins, on the zero, or on the sense of turning', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 6, noNaN: true }), fc.integer({ min: -500, max: 500 }), (start, steps) => {
        const moved = measure(
          {},
          turn((angle) => wobble(angle + start) + steps * resolution, true),
        );
        const plain = measure({}, turn(wobble, true));
        expect(Math.abs(numberOf(moved.tir) - numberOf(plain.tir))).toBeLessThan(0.0015);
        const spot = (found: RunoutMeasured) => (isNone(found.harmonics) ? 0 : (found.harmonics[0]?.highSpot ?? 0));
        const off = Math.cos(spot(plain) - spot(moved) - start);
        expect(off).toBeGreaterThan(0.9995);
      }),
      { numRuns: 20 },
    );
  });
});

describe('stations', () => {
  it.each([true, false])('are found where the hand pauses; angle measured: %s', (withAngle) => {
    const found = measure({ mode: 'stations', stations: 8 }, byStations(8, wobble, withAngle));
    const expected = Array.from({ length: 8 }, (_, i) => wobble((i * Math.PI) / 4));
    expect(found.stations?.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    for (const [index, station] of (found.stations ?? []).entries())
      expect(station.value).toBeCloseTo(expected[index] ?? 0, 2.7);
    expect(numberOf(found.tir)).toBeCloseTo(Math.max(...expected) - Math.min(...expected), 2.7);
    expect(numberOf(found.missAtWorst) / numberOf(found.tir)).toBeCloseTo(1 / 0.9238795 - 1, 2);
    expect(found.flags.filter((flag) => flag !== 'more-between')).toEqual(withAngle ? [] : ['equal-spacing-assumed']);
    expect(isNone(found.harmonics) ? 0 : found.harmonics[0]?.amplitude).toBeCloseTo(0.03, 2.7);
  });

  it('give cues as they are found', () => {
    const capture = startRunout({ resolution, mode: 'stations', stations: 8 });
    const events: RunoutEvent[] = byStations(8, wobble, true).flatMap((item) => [...stepRunout(capture, item)]);
    const numbers = events.flatMap((event) => (event.kind === 'station' ? [event.number] : []));
    expect(numbers).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]); // the ninth is the return to the first
  });

  it('that cannot be told apart by their height are not made up', () => {
    const found = measure(
      { mode: 'stations', stations: 8 },
      byStations(8, () => 0.5, false),
    );
    expect(found).toMatchObject({ tir: { none: 'not-turned' } });
    expect(found).not.toHaveProperty('stations');
  });

  it('may be sent one by one, and four of them leave two lobes open', () => {
    const found = measure({ mode: 'auto' }, sent([0, 0.003, -0.002, 0.003]));
    expect(numberOf(found.tir)).toBeCloseTo(0.005, 9);
    expect(found.flags).toEqual(['equal-spacing-assumed', 'two-lobes-can-vanish']);
    expect(isNone(found.harmonics) ? [] : found.harmonics.map(({ order }) => order)).toEqual([1]);
    expect(found.shape).toBe('unknown');
  });

  it('may stand at unequal places', () => {
    const places = [0, 40, 95, 150, 200, 260, 330];
    const found = measure(
      { mode: 'auto' },
      sent(
        places.map((place) => 0.03 * Math.cos(degrees(place - 70))),
        places,
      ),
    );
    const [first, second] = isNone(found.harmonics) ? [] : found.harmonics;
    expect(toDegrees(first?.highSpot ?? radians(0))).toBeCloseTo(70, 6);
    expect(second?.amplitude).toBeCloseTo(0, 9);
  });

  it('may be given by the pedal, the last by stopping there', () => {
    const items = byStations(4, wobble, false).flatMap((item, i): StreamItem[] =>
      i % 75 === 45 && i < 250 ? [item, { t: item.t, pedal: 'next' }] : [item],
    );
    const four = measure({ mode: 'stations', stations: 4 }, items.slice(0, 250 + 3));
    expect(four.stations?.map(({ value }) => value)).toEqual(
      [0, 1, 2, 3].map((i) => expect.closeTo(wobble((i * Math.PI) / 2), 2.7) as number),
    );
  });

  it('must be three at least', () => {
    expect(measure({ mode: 'stations' }, sent([0, 0.01])).tir).toEqual({ none: 'too-few-stations' });
  });
});

describe('the shape behind a runout', () => {
  const shapeAt = (n: number, surface: (angle: number, index: number) => number) => {
    const places = Array.from({ length: n }, (_, i) => (360 * i) / n);
    return measure(
      { mode: 'auto' },
      sent(
        places.map((place, i) => rounded(surface(degrees(place), i))),
        places,
      ),
    );
  };

  it.each([6, 8, 12])('is told from %d stations', (n) => {
    expect(shapeAt(n, (angle) => 0.04 * Math.cos(angle - 1)).shape).toBe('eccentric');
    expect(shapeAt(n, (angle) => 0.04 * Math.cos(2 * angle - 1)).shape).toBe('warp');
    expect(shapeAt(n, (_, i) => (i === 2 ? 0.05 : 0))).toMatchObject({
      shape: 'burr',
      burr: { angle: expect.closeTo((4 * Math.PI) / n, 6) as number, height: expect.closeTo(0.05, 2.7) as number },
    });
    expect(shapeAt(n, () => 0).shape).toBe('unknown');
  });

  it('is mixed when two causes matter', () => {
    expect(shapeAt(12, (angle) => 0.04 * Math.cos(angle) + 0.03 * Math.cos(2 * angle - 2)).shape).toBe('mixed');
    expect(shapeAt(12, (angle, i) => 0.04 * Math.cos(angle) + (i === 3 ? 0.06 : 0)).shape).toBe('mixed');
  });

  it('is told from a continuous turn, a narrow burr included', () => {
    const near = (angle: number) => Math.abs((angle % (2 * Math.PI)) - 2) < 0.06;
    const burr = measure(
      {},
      turn((angle) => 0.01 * Math.cos(angle) + (near(angle) ? 0.06 : 0), true),
    );
    expect(burr.shape).toBe('burr');
    expect(burr.burr?.angle).toBeCloseTo(2, 0.8);
    expect(numberOf(burr.tir)).toBeGreaterThan(0.06);
    expect(
      measure(
        {},
        turn((angle) => 0.04 * Math.cos(2 * angle), true),
      ).shape,
    ).toBe('warp');
  });
});

/** The stem hangs free, is let down onto the gear, rides what is given, and is lifted off again: readings as they come. */
function withHanging(ride: readonly StreamItem[]): readonly StreamItem[] {
  const values = ride.flatMap((item) => ('value' in item ? [item.value] : []));
  const [from, to] = [values[0] ?? 0, values.at(-1) ?? 0];
  const hangs = -2;
  const slide = (a: number, b: number) => Array.from({ length: 10 }, (_, i) => a + ((b - a) * (i + 1)) / 10);
  const still = (value: number, n: number) => Array.from({ length: n }, () => value);
  const before = [...still(hangs, 60), ...slide(hangs, from), ...still(from, 40)];
  const after = [...still(to, 20), ...slide(to, hangs), ...still(hangs, 80)];
  const began = before.length / 50;
  const ended = began + (ride.at(-1)?.t ?? 0) + 1 / 50;
  return [
    ...before.map((value, i) => ({ t: seconds(i / 50), value: rounded(value) })),
    ...ride.map((item) => ({ ...item, t: seconds(began + item.t) })),
    ...after.map((value, i) => ({ t: seconds(ended + i / 50), value: rounded(value) })),
  ];
}

describe('a stem that is put down before and lifted after', () => {
  const stations = byStations(8, wobble, false);

  it('is no station where it hangs free', () => {
    const capture = startRunout({ resolution, mode: 'stations', stations: 8 });
    const events = withHanging(stations).flatMap((item) => stepRunout(capture, item));
    const found = finishRunout(capture);
    const plain = measure({ mode: 'stations', stations: 8 }, stations);
    expect(found.stations).toHaveLength(8);
    expect(found.tir).toBeCloseTo(numberOf(plain.tir), 4);
    expect(found.flags).toEqual(plain.flags);
    expect(events.filter(({ kind }) => kind === 'again')).toHaveLength(1);
  });

  it('leaves what is marked as one turn alone', () => {
    const ride = turn(wobble, false);
    const first: StreamItem = { t: seconds(0.01), pedal: 'next' };
    const last: StreamItem = { t: seconds((ride.at(-1)?.t ?? 0) + 0.001), pedal: 'next' };
    const found = measure({}, withHanging([first, ...ride, last].toSorted((a, b) => a.t - b.t)));
    expect(numberOf(found.tir)).toBeCloseTo(trueTir(wobble), 2.5);
  });

  it('takes a press at once after the stem came down as the word that it sits', () => {
    const ride = turn(wobble, false);
    const items = withHanging(ride);
    const sits = items.findIndex((item) => 'value' in item && item.value > 0);
    const soon: StreamItem = { t: seconds((items[sits]?.t ?? 0) + 0.17), pedal: 'next' };
    const last: StreamItem = { t: seconds((70 + 40 + ride.length) / 50 - 0.001), pedal: 'next' };
    const found = measure(
      {},
      [soon, ...items, last].toSorted((a, b) => a.t - b.t),
    );
    expect(numberOf(found.tir)).toBeCloseTo(trueTir(wobble), 2.5);
  });

  it('refuses a turn that nothing marks, whose part of the readings nobody can tell', () => {
    expect(measure({}, withHanging(turn(wobble, false)))).toMatchObject({ tir: { none: 'stem-lifted' } });
  });

  it('says so when it left before the last station', () => {
    const ride = (withAngle: boolean) => withHanging(byStations(8, wobble, withAngle).slice(0, 4 * 75 + 50));
    expect(measure({ mode: 'stations', stations: 8 }, ride(false))).toMatchObject({ tir: { none: 'stem-lifted' } });
    const found = measure({ mode: 'stations', stations: 8 }, ride(true));
    expect(found.flags).toContain('stem-lifted');
    expect(found.stations).toHaveLength(5);
  });
});

it('counts stations by the presses once there is one, whatever pauses were seen', () => {
  const capture = startRunout({ resolution, mode: 'stations', stations: 8 });
  const ride = byStations(8, wobble, false);
  const presses = Array.from({ length: 8 }, (_, i): StreamItem => ({ t: seconds(i * 1.5 + 0.9), pedal: 'next' }));
  const items = [...ride, ...presses].toSorted((a, b) => a.t - b.t);
  const numbers = items.flatMap((item) =>
    stepRunout(capture, item).flatMap((event) => (event.kind === 'station' ? [event.number] : [])),
  );
  // The first is seen and pressed; from then on only presses count, the look back at the first place does not.
  expect(numbers).toEqual([1, 1, 2, 3, 4, 5, 6, 7, 8]);
  expect(finishRunout(capture).stations).toHaveLength(8);
});

describe('a station that is pressed while the stem has hardly landed', () => {
  const landed: readonly StreamItem[] = [...Array<number>(60).fill(-2), ...Array<number>(60).fill(0.1)].map(
    (value, i) => ({ t: seconds(i / 50), value }),
  );
  /** Numbers of the stations that the press itself told. */
  const told = (items: readonly StreamItem[], press_s: number): readonly number[] => {
    const capture = startRunout({ resolution, mode: 'stations', stations: 8 });
    for (const item of items) if (item.t < press_s) stepRunout(capture, item);
    return stepRunout(capture, { t: seconds(press_s), pedal: 'next' }).flatMap((event) =>
      event.kind === 'station' ? [event.number] : [],
    );
  };

  it.each(Array.from({ length: 30 }, (_, i) => i))('is the first, %i readings after it came down', (later) => {
    expect(told(landed, (60 + later) / 50 + 0.001)).toEqual([1]);
  });

  it('is none where nothing was read yet', () => {
    expect(told(landed, -1)).toEqual([]);
  });
});
