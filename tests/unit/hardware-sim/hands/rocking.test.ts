import { describe, expect, it } from 'vitest';
import { steadyHand, type Hand, type Speed } from '../../../../hardware-sim/hands/hand.ts';
import { durationOf, moments, type Doing, type Moment } from '../../../../hardware-sim/hands/motion.ts';
import { lower, raise, rocking, type StationSetup } from '../../../../hardware-sim/hands/rocking.ts';
import type { Spoil } from '../../../../hardware-sim/hands/spoil.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';

const SETUP: StationSetup = {
  backlash_mm: 0.24,
  lowStop_mm: 1.1,
  rocks: 4,
  firstStop: 'high',
  liesAt: 0.4,
  lies_s: 0.5,
  endsBack: true,
  leastRest_s: 0.1,
};
const bare: Hand = { ...steadyHand('usual'), press_mm: { low: 0, high: 0 }, bounce: 0, hesitates: 0 };

const rock = (hand: Hand, spoil?: Spoil, setup: StationSetup = SETUP): Moment[] => [
  ...moments(rocking(setup, hand, seeded(11), spoil), 1000),
];
const valuesAt = (seen: readonly Moment[], doing: Doing, rockNumber?: number): number[] =>
  seen.filter((m) => m.doing === doing && (rockNumber === undefined || m.rock === rockNumber)).map((m) => m.value);
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('rocking', () => {
  it.each<Speed>(['slow', 'usual', 'fast'])('leaves the backlash between the rests of a %s hand', (speed) => {
    const hand = { ...steadyHand(speed), pressSpread: 0 };
    const seen = rock(hand);
    const span_mm = mean(valuesAt(seen, 'rest-high')) - mean(valuesAt(seen, 'rest-low'));
    expect(span_mm).toBeCloseTo(0.24 + hand.press_mm.low + hand.press_mm.high, 9);
  });

  it('gives each rock two rests of its own, and numbers no rest that belongs to none', () => {
    const rests = [...rocking(SETUP, bare, seeded(1))].filter((stretch) => stretch.doing.startsWith('rest'));
    expect(rests.map((stretch) => stretch.rock)).toEqual([0, 0, 1, 1, 2, 2, 3, 3, undefined]);
    expect(rests.every((stretch) => stretch.seconds >= SETUP.leastRest_s)).toBe(true);
  });

  it('gives even the slowest gauge five readings in each rest, wherever its first reading falls', () => {
    const rate_Hz = 3;
    const setup = { ...SETUP, leastRest_s: 5.01 / rate_Hz };
    for (let start_s = 0; start_s < 1 / rate_Hz; start_s += 0.01) {
      const seen = [...moments(rocking(setup, steadyHand('fast'), seeded(5)), rate_Hz, start_s)];
      for (const rockNumber of [0, 1, 2, 3]) {
        expect(valuesAt(seen, 'rest-low', rockNumber).length).toBeGreaterThanOrEqual(5);
        expect(valuesAt(seen, 'rest-high', rockNumber).length).toBeGreaterThanOrEqual(5);
      }
    }
  });

  it('begins where the gear lies', () => {
    expect(rock(bare)[0]).toMatchObject({ doing: 'between', value: 1.1 + 0.4 * 0.24 });
  });

  it('never leaves the clearance, bouncing or not, when nothing gives', () => {
    const values = rock({ ...bare, bounce: 0.3, hesitates: 0.5 }).map((moment) => moment.value);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(1.1 - 1e-9);
    expect(Math.max(...values)).toBeLessThanOrEqual(1.34 + 1e-9);
  });

  it('bounces away from the stop by the share asked for', () => {
    const bounces = valuesAt(rock({ ...bare, bounce: 0.2 }), 'bouncing').filter((value) => value > 1.22);
    expect(Math.min(...bounces)).toBeCloseTo(1.34 - 0.2 * 0.24, 3);
  });

  it('hesitates clear of both stops', () => {
    const stalls = valuesAt(rock({ ...bare, hesitates: 1 }), 'hesitating');
    expect(stalls.length).toBeGreaterThan(0);
    expect(stalls.every((value) => value > 1.11 && value < 1.33)).toBe(true);
  });

  it('moves without a jump from the first moment to the last', () => {
    const values = rock({ ...steadyHand('fast'), hesitates: 0.5 }).map((moment) => moment.value);
    const jumps = values.slice(1).map((value, index) => Math.abs(value - (values[index] ?? value)));
    expect(Math.max(...jumps)).toBeLessThan(0.012);
  });
});

describe('what goes wrong at a station', () => {
  const span = (seen: readonly Moment[], rockNumber: number): number =>
    mean(valuesAt(seen, 'rest-high', rockNumber)) - mean(valuesAt(seen, 'rest-low', rockNumber));

  it('a moved base shifts both rests from that rock on and keeps their difference', () => {
    const seen = rock(bare, { kind: 'base-moved', by_mm: 0.1, atRock: 2 });
    expect(mean(valuesAt(seen, 'rest-low', 2)) - mean(valuesAt(seen, 'rest-low', 1))).toBeCloseTo(0.1, 9);
    expect(span(seen, 3)).toBeCloseTo(0.24, 9);
  });

  it('a moved pinion lets both rests drift together', () => {
    const seen = rock(bare, { kind: 'pinion-moved', perRock_mm: 0.02 });
    for (const stop of ['rest-low', 'rest-high'] as const) {
      expect(mean(valuesAt(seen, stop, 3)) - mean(valuesAt(seen, stop, 0))).toBeCloseTo(0.06, 9);
    }
  });

  it('a gear not held creeps back from its stop', () => {
    const rest = valuesAt(rock(bare, { kind: 'not-held', creep_mm_per_s: 0.05 }), 'rest-high', 0);
    expect(rest.at(-1)).toBeCloseTo((rest[0] ?? 0) - (0.05 * (rest.length - 1)) / 1000, 6);
  });

  it('one-sided rocks reach one stop only', () => {
    const seen = rock(bare, { kind: 'one-sided', short: 'low' });
    expect(mean(valuesAt(seen, 'rest-high'))).toBeCloseTo(1.34, 9);
    expect(Math.min(...valuesAt(seen, 'rest-low'))).toBeGreaterThan(1.1 + 0.03);
  });

  it('rocks that do not repeat differ', () => {
    const seen = rock(bare, { kind: 'not-repeating', spread_mm: 0.05 });
    const spans = [0, 1, 2, 3].map((number) => span(seen, number));
    expect(Math.max(...spans) - Math.min(...spans)).toBeGreaterThan(0.03);
  });

  it('an end of travel stops the stem short', () => {
    const seen = rock(bare, { kind: 'end-of-travel', side: 'high', end_mm: 1.25 });
    expect(Math.max(...seen.map((moment) => moment.value))).toBeCloseTo(1.25, 9);
  });
});

describe('the stem between two stations', () => {
  it('is raised to the free end of its travel, hangs dead still, and is lowered to the next preload', () => {
    const way = [...raise(1.3, bare, seeded(2)), ...lower(0.8, bare, seeded(3))];
    const seen = [...moments(way, 500)];
    expect(seen[0]?.value).toBeCloseTo(1.3, 9);
    expect(new Set(valuesAt(seen, 'hanging'))).toEqual(new Set([0]));
    expect(seen.at(-1)?.value).toBeCloseTo(0.8, 2);
    expect(seen.length).toBeCloseTo(durationOf(way) * 500, -1);
  });
});

describe('looking at a motion', () => {
  it('takes its times from the count, so that they do not drift', () => {
    const seen = [...moments([{ doing: 'idle', seconds: 3600, at: () => 0 }], 3)];
    expect(seen).toHaveLength(10_800);
    expect(seen.at(-1)?.t_s).toBe(10_799 / 3);
  });
});
