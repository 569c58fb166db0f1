import { describe, expect, it } from 'vitest';
import {
  measureBacklash,
  startBacklash,
  stepBacklash,
  type BacklashSettings,
  type StationMeasured,
} from '../../../../../src/shared/measuring/backlash/capture.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import { none } from '../../../../../src/shared/basics/result.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { script, settings } from './scripted.ts';

const only = (items: Iterable<StreamItem>, given: BacklashSettings = settings()): StationMeasured => {
  const { stations } = measureBacklash(items, given);
  const [station] = stations;
  if (station === undefined || stations.length !== 1) throw new Error(`${stations.length} stations instead of one`);
  return station;
};

describe('drift', () => {
  it('is refused when the pinion walks away under both rests', () => {
    const walking = script().rest(2);
    for (let rock = 0; rock < 6; rock += 1) walking.rocks(1, 2 + rock * 0.02, 2.21 + rock * 0.02);
    const station = only(walking.lift(2).items);
    expect(station.value).toEqual(none('drift'));
    expect(station.why).toMatch(/moved together/u);
  });

  it('is refused when the base was knocked between two rocks', () => {
    expect(only(script().rest(2).rocks(2, 2, 2.2).rocks(4, 2.07, 2.27).lift(2).items).value).toEqual(none('drift'));
  });

  it('is refused when the base was knocked by more than the backlash', () => {
    expect(only(script().rest(2).rocks(3, 2, 2.2).rocks(4, 2.5, 2.7).items).value).toEqual(none('drift'));
  });

  it('is only marked when the knock came after the station was done', () => {
    const station = only(script().rest(2).rocks(6, 2, 2.2).rocks(4, 2.5, 2.7).items);
    expect(station.value).toBeCloseTo(0.2, 3);
    expect(station.flags).toEqual(['drift']);
  });
});

describe('not held', () => {
  it('is refused when every rest creeps back from its stop', () => {
    const slack = script().rest(2);
    for (let rock = 0; rock < 6; rock += 1) slack.go(2.2).rest(2.2, 1, -0.04).go(2).rest(2, 1, 0.04);
    expect(only(slack.lift(2).items).value).toEqual(none('not-held'));
  });

  it('is said of strokes that never rest', () => {
    const swinging = script();
    for (let rock = 0; rock < 10; rock += 1) swinging.go(2.2, 0.3).go(2, 0.3);
    expect(only(swinging.items).value).toEqual(none('not-held'));
  });
});

describe('end of travel', () => {
  const clipped = () =>
    script({ travel: [0, 2.15] })
      .rest(2)
      .rocks(6, 2, 2.25)
      .lift(2);

  it('is refused where the travel is known', () => {
    const given = settings({ travel: { from: mm(0), to: mm(2.15) } });
    expect(only(clipped().items, given).value).toEqual(none('end-of-travel'));
  });

  it('is refused where the session has shown the place at which the stem hangs free', () => {
    const low = script({ travel: [0, 10] })
      .rest(2)
      .rocks(6, 2, 2.2)
      .lift(3)
      .rocks(6, 3, 3.2)
      .lift(0.1);
    const { stations } = measureBacklash(low.rocks(6, -0.1, 0.2).lift(2).items, settings());
    expect(stations.map(({ value }) => value).at(-1)).toEqual(none('end-of-travel'));
  });
});

describe('one-sided', () => {
  it('is refused when one stop is reached and the other left short', () => {
    const random = seeded(3);
    const short = script().rest(2);
    for (let rock = 0; rock < 6; rock += 1) short.rocks(1, 2, 2.2 - random.uniform(0.02, 0.12));
    expect(only(short.lift(2).items).value).toEqual(none('one-sided'));
  });

  it('is refused when the other stop is touched and not held', () => {
    const touching = script();
    for (let rock = 0; rock < 6; rock += 1) touching.rest(2).go(2.2, 0.1).go(2, 0.1);
    expect(only(touching.rest(2).items).value).toEqual(none('one-sided'));
  });
});

describe('not repeatable', () => {
  it('is refused when the rocks differ without a reason', () => {
    const random = seeded(5);
    const uneven = script().rest(2);
    for (let rock = 0; rock < 8; rock += 1) {
      uneven.rocks(1, 2 + random.normal(0, 0.02), 2.2 + random.normal(0, 0.02));
    }
    expect(only(uneven.lift(2).items).value).toEqual(none('not-repeatable'));
  });

  it('is said of too few rocks, with their number', () => {
    const station = only(script().rest(2).rocks(2, 2, 2.2).lift(2).items);
    expect(station.value).toEqual(none('not-repeatable'));
    expect(station.why).toMatch(/Only (one rock|2 rocks) here; it takes at least 3/u);
  });

  it('is told at the twelfth rock while the technician is still there', () => {
    const random = seeded(11);
    const uneven = script().rest(2);
    for (let rock = 0; rock < 20; rock += 1) {
      uneven.rocks(1, 2 + random.normal(0, 0.02), 2.2 + random.normal(0, 0.02));
    }
    const capture = startBacklash(settings());
    const told = uneven.items.flatMap((item) => [...stepBacklash(capture, item)]);
    const refusals = told.filter((event) => event.kind === 'station-refused');
    expect(refusals).toHaveLength(1);
    expect(refusals[0]?.kind === 'station-refused' && refusals[0].measured.rocks).toBeLessThanOrEqual(12);
  });
});

describe('unit jump', () => {
  it('is refused when the gauge changes from millimetres to inches within a station', () => {
    const items = script({ resolution_mm: 0.0005, noise_mm: 0.0002 })
      .rest(2)
      .rocks(3, 2, 2.2)
      .scale(1 / 25.4);
    const station = only(items.rocks(4, 2, 2.2).lift(2).items, settings({ resolution: mm(0.0005) }));
    expect(station.value).toEqual(none('unit-jump'));
  });

  it('is refused when the inch strokes are too small for the display to show', () => {
    const items = script({ resolution_mm: 0.01, noise_mm: 0.002 })
      .rest(2)
      .rocks(2, 2, 2.2)
      .rest(2, 0.3)
      .scale(1 / 25.4);
    const station = only(items.rest(2, 0.3).rocks(4, 2, 2.2).items, settings({ resolution: mm(0.01) }));
    expect(station.value).toEqual(none('unit-jump'));
  });

  it('is refused when the gauge was set to zero at a stop', () => {
    const items = script({ resolution_mm: 0.0005, noise_mm: 0.0001 })
      .rest(0)
      .rocks(3, 0, 0.2)
      .scale(1 / 25.4);
    const station = only(items.rocks(5, 0, 0.2).items, settings({ resolution: mm(0.0005) }));
    expect(station.value).toEqual(none('unit-jump'));
  });

  it('is refused when the counter loses a turn while the gear rests', () => {
    const items = script().rest(2).rocks(3, 2, 2.2).rest(2, 0.4).scale(1, 1).rest(2, 0.4).rocks(4, 2, 2.2).items;
    expect(only(items).value).toEqual(none('unit-jump'));
  });

  it('is refused at the next station when the unit changed in between', () => {
    const items = script({ resolution_mm: 0.0005, noise_mm: 0.0001 }).rest(2).rocks(6, 2, 2.2).lift(3);
    const { stations } = measureBacklash(
      items
        .scale(1 / 25.4)
        .rest(3, 0.4)
        .rocks(6, 3, 3.2)
        .lift(2).items,
      settings({ resolution: mm(0.0005) }),
    );
    expect(stations.at(-1)?.value).toEqual(none('unit-jump'));
  });
});

describe('gap', () => {
  it('is marked where rocks join up again', () => {
    const station = only(script().rest(2).rocks(2, 2, 2.2).silence(3).rest(2).rocks(4, 2, 2.2).lift(2).items);
    expect(station.value).toBeCloseTo(0.2, 3);
    expect(station.flags).toEqual(['gap']);
    expect(station.why).toMatch(/missing/u);
  });

  it('makes no rock of two rests on either side of it', () => {
    const split = script().rest(2).rocks(1, 2, 2.2).go(2.2).rest(2.2).silence(3).rest(2).rocks(4, 2, 2.2).lift(2);
    expect(only(split.items).value).toBeCloseTo(0.2, 3);
  });

  it('is refused where nobody knows what happened in it', () => {
    const { stations } = measureBacklash(
      script().rest(2).rocks(2, 2, 2.2).silence(5).rest(3).rocks(6, 3, 3.2).lift(2).items,
      settings(),
    );
    expect(stations[0]?.value).toEqual(none('gap'));
    expect(stations[1]?.value).toBeCloseTo(0.2, 3);
    expect(stations[1]?.flags).toEqual(['gap']);
  });

  it('is told at once', () => {
    const capture = startBacklash(settings());
    const told = script()
      .rest(2, 2)
      .silence(2)
      .rest(2, 1)
      .items.flatMap((item) => [...stepBacklash(capture, item)]);
    expect(told.map(({ kind }) => kind)).toEqual(['gap']);
  });
});
