import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  randomSession,
  randomStation,
  spoiltStation,
  type OneStation,
} from '../../../../hardware-sim/hands/stations.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';

const seeds = fc.integer({ min: 0, max: 2 ** 40 });

describe('random stations', () => {
  it('are the same for the same seed and differ for another', () => {
    expect(randomStation(seeded(7)).readings).toEqual(randomStation(seeded(7)).readings);
    expect(randomStation(seeded(8)).readings).not.toEqual(randomStation(seeded(7)).readings);
  });

  it('show only whole steps of the display', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const station = randomStation(seeded(seed));
        for (const { value_mm } of station.readings) {
          const steps = value_mm / station.resolution_mm;
          expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-6);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('keep the measured truth within the clearance and the give of two hands', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const station = randomStation(seeded(seed));
        const give_mm = station.hand.press_mm.low + station.hand.press_mm.high;
        expect(station.truth_mm).toBeGreaterThanOrEqual(station.clearance_mm);
        expect(station.truth_mm - station.clearance_mm).toBeLessThan(give_mm * 1.8 + 1e-9);
      }),
      { numRuns: 100 },
    );
  });

  it('let the gauge be wrong by no more than its stated errors', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { asGauged_mm, truth_mm, gauge } = randomStation(seeded(seed));
        expect(Math.abs(asGauged_mm - truth_mm)).toBeLessThan(2 * gauge.statedError_mm + gauge.statedHysteresis_mm);
      }),
      { numRuns: 100 },
    );
  });

  it('give five readings or more in each rest of each rock, and say what the hand did at every reading', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const station = randomStation(seeded(seed));
        expect(station.seen).toHaveLength(station.readings.length);
        for (let rock = 0; rock < station.rocks; rock += 1) {
          for (const stop of ['rest-low', 'rest-high']) {
            const rest = station.seen.filter((moment) => moment.rock === rock && moment.doing === stop);
            expect(rest.length).toBeGreaterThanOrEqual(5);
          }
        }
      }),
      { numRuns: 100 },
    );
  });

  it('stretch from slow gauges to fast ones, in both signs and both units', () => {
    const many = Array.from({ length: 300 }, (_, seed) => randomStation(seeded(seed)));
    const rates = many.map((station) => station.rate_Hz);
    expect(Math.min(...rates)).toBeLessThan(4);
    expect(Math.max(...rates)).toBeGreaterThan(80);
    expect(new Set(many.map((station) => `${station.gauge.sign} ${station.gauge.unit}`)).size).toBe(4);
    expect(new Set(many.map((station) => station.resolution_mm)).size).toBe(9);
  });
});

describe('random sessions', () => {
  it('hold their stations one after the other, in rising time, with a press only where the stem hangs', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const session = randomSession(seeded(seed));
        const times = session.readings.map((reading) => reading.t);
        expect(times.every((t, index) => index === 0 || t > (times[index - 1] ?? t))).toBe(true);
        for (const [index, station] of session.stations.entries()) {
          expect(station.until_s).toBeGreaterThan(station.from_s);
          const next = session.stations[index + 1];
          if (next !== undefined) expect(next.from_s).toBeGreaterThan(station.until_s);
        }
        for (const press of session.presses) {
          expect(session.stations.some(({ from_s, until_s }) => press.t > from_s && press.t < until_s)).toBe(false);
        }
      }),
      { numRuns: 30 },
    );
  });
});

describe('spoilt stations', () => {
  const spanOf = (station: OneStation) => Math.abs(station.truth_mm - station.clearance_mm) / station.clearance_mm;

  it('one-sided rocks fall short of the clearance', () => {
    for (let seed = 0; seed < 30; seed += 1) {
      const station = spoiltStation(seeded(seed), 'one-sided');
      expect(station.truth_mm).toBeLessThan(station.clearance_mm * 0.9);
    }
  });

  it('the end of travel swallows part of the movement', () => {
    for (let seed = 0; seed < 30; seed += 1) {
      const station = spoiltStation(seeded(seed), 'end-of-travel');
      const shown = station.readings.map((reading) => reading.value_mm);
      const reach_mm = Math.max(...shown) - Math.min(...shown);
      expect(station.asGauged_mm).toBeLessThan(station.clearance_mm * 0.9 + 2 * station.gauge.statedError_mm);
      expect(reach_mm).toBeLessThan(station.gauge.travel_mm + 10 * station.gauge.noise_mm + 2 * station.resolution_mm);
    }
  });

  it('a moved pinion shifts each rock by half a step of its own and a moved base only one of them', () => {
    const pinion = spoiltStation(seeded(3), 'pinion-moved');
    const base = spoiltStation(seeded(3), 'base-moved');
    expect(spanOf(pinion)).toBeGreaterThan(0.02);
    expect(base.spoil?.kind).toBe('base-moved');
    expect(pinion.spoil?.kind).toBe('pinion-moved');
  });
});
