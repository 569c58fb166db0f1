import { describe, expect, it } from 'vitest';
import {
  finishBacklash,
  measureBacklash,
  startBacklash,
  stepBacklash,
  type BacklashEvent,
  type BacklashSettings,
} from '../../../../../src/shared/measuring/backlash/capture.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import { isNone, none } from '../../../../../src/shared/basics/result.ts';
import { script, settings } from './scripted.ts';

const valuesOf = (items: Iterable<StreamItem>, given: BacklashSettings = settings()) =>
  measureBacklash(items, given).stations.map(({ value }) => value);

const eventsOf = (items: Iterable<StreamItem>, given: BacklashSettings = settings()): BacklashEvent[] => {
  const capture = startBacklash(given);
  return [...items].flatMap((item) => [...stepBacklash(capture, item)]);
};

const kindsOf = (events: readonly BacklashEvent[]): string[] => events.map(({ kind }) => kind);

describe('a station', () => {
  it('is the difference of the two rests, from four rocks', () => {
    const { stations } = measureBacklash(script().rest(2).rocks(6, 2, 2.2).lift(2).items, settings());
    expect(stations).toHaveLength(1);
    expect(stations[0]?.value).toBeCloseTo(0.2, 3);
    expect(stations[0]?.rocks).toBe(4);
    expect(stations[0]?.flags).toEqual([]);
  });

  it('does not count where the gear happened to lie at first', () => {
    expect(valuesOf(script().rest(2.13, 1).rocks(5, 2, 2.2).lift(2).items)[0]).toBeCloseTo(0.2, 3);
  });

  it('takes three rocks for enough when the technician leaves then', () => {
    const { stations } = measureBacklash(script().rest(2).rocks(3, 2, 2.2).go(2.2).rest(2.2).items, settings());
    expect(stations[0]?.value).toBeCloseTo(0.2, 3);
    expect(stations[0]?.rocks).toBe(3);
  });

  it('does not take a hesitation on the way for a rest', () => {
    const stalling = script().rest(2);
    for (let rock = 0; rock < 6; rock += 1) {
      stalling.go(2.1).rest(2.1, 0.3).go(2.2).rest(2.2).go(2.08).rest(2.08, 0.25).go(2).rest(2);
    }
    const { stations } = measureBacklash(stalling.lift(2).items, settings());
    expect(stations[0]?.value).toBeCloseTo(0.2, 3);
  });

  it('does not take a rebound for a rest', () => {
    const springing = script({ rate_Hz: 60 }).rest(2);
    for (let rock = 0; rock < 6; rock += 1) {
      springing
        .go(2.2, 0.1)
        .go(2.15, 0.04)
        .go(2.2, 0.04)
        .go(2.185, 0.03)
        .go(2.2, 0.03)
        .rest(2.2, 0.4)
        .go(2)
        .rest(2, 0.4);
    }
    expect(valuesOf(springing.lift(2).items)[0]).toBeCloseTo(0.2, 3);
  });

  it('says where the doubt comes from and adds it up', () => {
    const given = settings({ gaugeU: mm(0.002), hysteresis: mm(0.003) });
    const station = measureBacklash(script().rest(2).rocks(5, 2, 2.2).lift(2).items, given).stations[0];
    expect(station?.parts.map(({ name }) => name)).toEqual(['resolution', 'gauge', 'hysteresis', 'rocks']);
    const whole = Math.hypot(...(station?.parts.map(({ u }) => u) ?? []));
    expect(station?.u).toBeCloseTo(whole, 9);
    expect(station?.parts[0]?.u).toBeCloseTo(0.001 / Math.sqrt(6), 12);
    expect(station?.parts[1]?.u).toBeCloseTo(0.002 * Math.SQRT2, 12);
    expect(station?.parts[2]?.u).toBeCloseTo(0.003 / Math.SQRT2, 12);
    expect(station?.parts[3]?.nu).toBe(5);
    expect(station?.U95).toBeGreaterThan(1.95 * whole);
  });
});

describe('going to the next station', () => {
  const four = () =>
    script().rest(2).rocks(6, 2, 2.2).lift(3).rocks(6, 3, 3.21).lift(1.5).rocks(6, 1.5, 1.72).lift(4).rocks(6, 4, 4.23);

  it('is by itself when the stem is lifted and set down elsewhere', () => {
    const measured = measureBacklash(four().lift(0.5).items, settings());
    expect(measured.stations.map(({ value }) => Number(value).toFixed(3))).toEqual([
      '0.200',
      '0.210',
      '0.220',
      '0.230',
    ]);
    expect(measured.min).toBeCloseTo(0.2, 3);
    expect(measured.max).toBeCloseTo(0.23, 3);
    expect(measured.mean).toBeCloseTo(0.215, 3);
    expect(measured.variation).toBeCloseTo(0.03, 3);
  });

  it('never takes the hanging stem for a rest', () => {
    const rests = eventsOf(four().items).filter((event) => event.kind === 'rest-found');
    for (const rest of rests) expect(rest.level).toBeGreaterThan(1.4);
    expect(rests.length).toBeGreaterThan(28);
  });

  it('is by press alone where that was chosen', () => {
    const lifted = script().rest(2).rocks(2, 2, 2.2).lift(3).rocks(4, 3, 3.2).press().lift(2).rocks(5, 2, 2.25).items;
    const values = valuesOf(lifted, settings({ nextBy: 'press' }));
    expect(values).toHaveLength(2);
    expect(values[0]).toBeCloseTo(0.2, 3);
    expect(values[1]).toBeCloseTo(0.25, 3);
  });

  it('counts one station when the stem is lifted and the pedal is pressed as well', () => {
    const both = script().rest(2).rocks(5, 2, 2.2).go(0, 0.4).rest(0, 0.5).press().rest(0, 0.5).go(3).rocks(5, 3, 3.2);
    expect(valuesOf(both.items)).toHaveLength(2);
  });

  it('says so when a press finds nothing measured', () => {
    expect(kindsOf(eventsOf(script().rest(2, 2).press().items))).toEqual(['nothing-measured']);
  });

  it('forgets the lifting and setting down of a stem that was not rocked', () => {
    const fumbling = script().rest(2).lift(2.5).lift(2.3).lift(2.6).rocks(6, 2.6, 2.8).lift(2);
    const values = valuesOf(fumbling.items);
    expect(values).toHaveLength(1);
    expect(values[0]).toBeCloseTo(0.2, 3);
  });

  it('stops when as many stations as wanted have their number', () => {
    const given = settings({ stations: 2 });
    expect(valuesOf(four().items, given)).toHaveLength(2);
    expect(kindsOf(eventsOf(four().items, given))).toContain('all-done');
  });
});

describe('taking a station anew', () => {
  it('forgets its rocks and keeps its number', () => {
    const items = script().rest(2).rocks(3, 2, 2.3).press('again').rocks(6, 2, 2.2).lift(3).items;
    const values = valuesOf(items);
    expect(values).toHaveLength(1);
    expect(values[0]).toBeCloseTo(0.2, 3);
  });

  it('takes back a station that had been refused', () => {
    const items = script()
      .rest(2)
      .rocks(1, 2, 2.2)
      .go(0)
      .rest(0, 1)
      .press()
      .press('again')
      .lift(2)
      .rocks(6, 2, 2.2)
      .lift(3);
    const values = valuesOf(items.items);
    expect(values).toHaveLength(1);
    expect(values[0]).toBeCloseTo(0.2, 3);
  });
});

describe('events', () => {
  const events = eventsOf(script().rest(2).rocks(6, 2, 2.2).lift(3).rocks(6, 3, 3.2).items);

  it('tell each rest, rock and station in order', () => {
    const rocks = events.filter((event) => event.kind === 'rock-counted' && event.station === 1);
    expect(rocks.map((event) => event.kind === 'rock-counted' && event.rocks)).toEqual([1, 2, 3, 4]);
    expect(kindsOf(events).filter((kind) => kind === 'station-done')).toHaveLength(2);
    expect(kindsOf(events).indexOf('station-done')).toBeLessThan(kindsOf(events).indexOf('lifted'));
  });

  it('tell a rest while it is still held', () => {
    const items = script().rest(2).rocks(2, 2, 2.2).go(2.2).rest(2.2, 0.5).items;
    const last = eventsOf(items).at(-1);
    expect(last?.kind).toBe('rest-found');
    expect(last?.kind === 'rest-found' && last.side).toBe('high');
  });

  it('never go back in time', () => {
    const times = events.map(({ t }) => t);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
  });
});

describe('nothing measured', () => {
  it('is said as a value, never as a number', () => {
    const measured = measureBacklash([], settings());
    expect(measured.stations).toEqual([]);
    expect(measured.mean).toEqual(none('nothing-measured'));
    expect(measured.variation).toEqual(none('nothing-measured'));
  });

  it('has no variation with one station', () => {
    const measured = measureBacklash(script().rest(2).rocks(5, 2, 2.2).items, settings());
    expect(isNone(measured.variation)).toBe(true);
  });

  it('does not begin without a resolution', () => {
    expect(() => startBacklash(settings({ resolution: mm(0) }))).toThrow(RangeError);
  });
});

describe('while it goes on', () => {
  it('ends the same however often it is ended', () => {
    const capture = startBacklash(settings());
    for (const item of script().rest(2).rocks(5, 2, 2.2).lift(3).rocks(1, 3, 3.2).items) stepBacklash(capture, item);
    const once = structuredClone(finishBacklash(capture));
    expect(finishBacklash(capture)).toEqual(once);
  });
});
