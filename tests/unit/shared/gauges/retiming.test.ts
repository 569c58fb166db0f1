import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../hardware-sim/seeded.ts';
import { arrivals, evenMoments } from '../../../../hardware-sim/worlds/moments.ts';
import { lastOfRetimer, newRetimer, retime } from '../../../../src/shared/gauges/retiming.ts';

interface Item {
  readonly t: number;
  readonly nth?: number;
  readonly pedal?: 'next';
}

function throughStage(items: readonly Item[]): readonly Item[] {
  const retimer = newRetimer<Item>();
  return [...items.flatMap((item) => retime(retimer, item)), ...lastOfRetimer(retimer)];
}

const readings = (times: readonly number[]): Item[] => times.map((t, nth) => ({ t, nth }));
const stalls = { every_s: 1.5, from_s: 0.05, to_s: 0.5 };
/** The pace is not known at once. */
const learning = 16;

const worstOf = (items: readonly Item[], sent: readonly number[]): number =>
  Math.max(...items.slice(learning).map(({ t, nth = 0 }) => Math.abs(t - (sent[nth] ?? Number.NaN))));

describe('the moments at which a gauge sent its readings', () => {
  it.each([10, 30, 100, 200])('are found again after stalls of half a second, at %i a second', (rate) => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const random = seeded(seed);
      const sent = evenMoments(rate, 30, random);
      // The first moments pass as they come, so that they come in time.
      const late = arrivals(sent, stalls, random).map((t, nth) => (nth < learning ? (sent[nth] ?? t) : t));
      const worst = Math.max(...late.map((t, nth) => t - (sent[nth] ?? t)));
      expect(worst).toBeGreaterThan(0.3);
      expect(worstOf(throughStage(readings(late)), sent)).toBeLessThan(1.01 / rate);
    }
  });

  it('are found within a pace where a link hands over blocks of a tenth of a second', () => {
    const sent = evenMoments(100, 20, seeded(4));
    const blocks = sent.map((t) => Math.ceil(t / 0.1) * 0.1);
    const found = throughStage(readings(blocks)).slice(128);
    expect(Math.max(...found.map(({ t, nth = 0 }) => Math.abs(t - (sent[nth] ?? 0))))).toBeLessThan(0.02);
  });

  it('stay as they came where nothing was late', () => {
    for (const rate of [3, 25, 100]) {
      const sent = evenMoments(rate, 40, seeded(rate));
      expect(throughStage(readings(sent))).toEqual(readings(sent));
    }
  });

  it('stay as they came of a gauge without a pace of its own', () => {
    const random = seeded(8);
    let t = 0;
    const times = Array.from({ length: 600 }, () => (t += -Math.log(1 - random.next()) / 20));
    expect(throughStage(readings(times))).toEqual(readings(times));
  });

  it('keep a silence that no heap made up for', () => {
    const times = Array.from({ length: 80 }, (_, nth) => nth * 0.1 + (nth < 40 ? 0 : 3));
    const found = throughStage(readings(times));
    expect((found[40]?.t ?? 0) - (found[39]?.t ?? 0)).toBeCloseTo(3.1, 9);
  });

  it('put the readings of a silence in which some were lost behind it, as late as they can have been sent', () => {
    // Half a second of silence, then two readings of five at once.
    const times = [...Array.from({ length: 40 }, (_, nth) => nth * 0.1), 4.42, 4.42, 4.5, 4.6, 4.7];
    const found = throughStage(readings(times)).map(({ t }) => t);
    expect(found[40]).toBeCloseTo(4.32, 9);
    expect(found.slice(41)).toEqual([4.42, 4.5, 4.6, 4.7]);
  });

  it('let a press fall between the readings it fell between, though these came later', () => {
    const sent = Array.from({ length: 60 }, (_, nth) => nth * 0.02);
    const late = sent.map((t) => (t > 0.61 && t < 0.99 ? 0.99 : t));
    const press: Item = { t: 0.75, pedal: 'next' };
    const items = [
      ...readings(late).filter(({ t }) => t < 0.75),
      press,
      ...readings(late).filter(({ t }) => t >= 0.75),
    ];
    const found = throughStage(items);
    const at = found.findIndex(({ pedal }) => pedal !== undefined);
    expect(found[at - 1]?.nth).toBe(37);
    expect(found[at + 1]?.nth).toBe(38);
  });

  it('make no press wait on a gauge that is silent while nothing moves', () => {
    const retimer = newRetimer<Item>();
    let t = 0;
    // It sends while the stem moves, and is silent for some seconds in between.
    for (let nth = 0; nth < 400; nth += 1) retime(retimer, { t: (t += nth % 20 === 0 ? 3 : 0.02), nth });
    expect(retime(retimer, { t: t + 1, pedal: 'next' })).toHaveLength(1);
  });

  it('make no press wait on a gauge that was unplugged', () => {
    const retimer = newRetimer<Item>();
    for (let nth = 0; nth < 100; nth += 1) retime(retimer, { t: nth * 0.02, nth });
    expect(retime(retimer, { t: 10, pedal: 'next' })).toHaveLength(1);
  });

  it('lose nothing, double nothing and keep the order, whatever comes', () => {
    const steps = fc.array(
      fc.record({
        apart: fc.oneof(
          fc.constant(0),
          fc.constant(0.02),
          fc.double({ min: 0, max: 1, noNaN: true }),
          fc.double({ min: -0.1, max: 0, noNaN: true }),
        ),
        pedal: fc.integer({ min: 0, max: 12 }).map((one) => one === 0),
      }),
      { maxLength: 400 },
    );
    fc.assert(
      fc.property(steps, (taken) => {
        let t = 5;
        const items = taken.map(
          ({ apart, pedal }, nth): Item => ((t += apart), pedal ? { t, pedal: 'next' } : { t, nth }),
        );
        const found = throughStage(items);
        expect(found.filter(({ nth }) => nth !== undefined).map(({ nth }) => nth)).toEqual(
          items.filter(({ nth }) => nth !== undefined).map(({ nth }) => nth),
        );
        expect(found).toHaveLength(items.length);
        expect(found.every((item) => Number.isFinite(item.t))).toBe(true);
      }),
    );
  });
});
