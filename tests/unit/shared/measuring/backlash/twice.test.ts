import { describe, expect, it } from 'vitest';
import { none } from '../../../../../src/shared/basics/result.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { measureBacklash, type StationMeasured } from '../../../../../src/shared/measuring/backlash/capture.ts';
import { script, settings, type Script } from './scripted.ts';

const only = (items: Iterable<StreamItem>): StationMeasured => {
  const { stations } = measureBacklash(items, settings());
  const [station] = stations;
  if (station === undefined || stations.length !== 1) throw new Error(`${stations.length} stations instead of one`);
  return station;
};

interface Stop {
  /** Where it stands first and then, counted outwards from the stop, mm; and how long. */
  readonly first_mm: number;
  readonly first_s: number;
  readonly then_mm: number;
  readonly then_s: number;
}

/** Rocks between 2.0 and 2.2; at each stop the gear stands at two places. */
function twice({ first_mm, first_s, then_mm, then_s }: Stop, many = 6): Script {
  const written = script().rest(2.05);
  for (let rest = 0; rest < 2 * many; rest += 1) {
    const at = (out_mm: number) => (rest % 2 === 0 ? 2.2 + out_mm : 2 - out_mm);
    written.go(at(first_mm)).rest(at(first_mm), first_s).go(at(then_mm), 0.15).rest(at(then_mm), then_s);
  }
  return written.lift(2);
}

describe('a gear that stands at two places at its stops', () => {
  it('has no backlash where the pinion gave each time, and is told so with the figure', () => {
    const station = only(twice({ first_mm: 0, first_s: 0.3, then_mm: 0.02, then_s: 0.5 }).items);
    expect(station.value).toEqual(none('not-held'));
    expect(station.why).toContain('0.020 mm apart: the pinion gave');
  });

  it('has none where the hand let go and it fell back', () => {
    const station = only(twice({ first_mm: 0, first_s: 0.25, then_mm: -0.015, then_s: 1 }).items);
    expect(station.value).toEqual(none('not-held'));
    expect(station.why).toContain('fell back');
  });

  it('has its number where a hand hesitated on the way, somewhere else each time', () => {
    const written = script().rest(2.05);
    for (const [index, short_mm] of [0.05, 0.02, 0.035, 0.055, 0.012, 0.04, 0.028, 0.05, 0.03, 0.015].entries()) {
      const [stop, short] = index % 2 === 0 ? [2.2, 2.2 - short_mm] : [2, 2 + short_mm];
      written.go(short).rest(short, 0.25).go(stop, 0.15).rest(stop, 0.6);
    }
    expect(only(written.lift(2).items).value).toBeCloseTo(0.2, 2);
  });

  it('has its number where it stood at one place and was left slowly', () => {
    expect(only(script().rest(2.05).rocks(6, 2, 2.2).lift(2).items).value).toBeCloseTo(0.2, 2);
  });
});
