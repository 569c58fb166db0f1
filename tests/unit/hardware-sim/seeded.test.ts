import { describe, expect, test } from 'vitest';
import { seeded } from '../../../hardware-sim/seeded.ts';

const draw = (count: number, make: () => number) => Array.from({ length: count }, make);
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('seeded chance', () => {
  test('the same seed gives the same stream and another seed another', () => {
    const [one, same, other] = [seeded(7), seeded(7), seeded(8)];
    const first = draw(20, () => one.next());
    expect(draw(20, () => same.next())).toEqual(first);
    expect(draw(20, () => other.next())).not.toEqual(first);
  });

  test('gives the words that the generator is known to give', () => {
    // First words of SplitMix64 from seed 1234567, from memory; the top 53 bits make a number in [0, 1).
    const words = [6457827717110365317n, 3203168211198807973n, 9817491932198370423n];
    const random = seeded(1234567);
    expect(draw(3, () => random.next())).toEqual(words.map((word) => Number(word >> 11n) / 2 ** 53));
  });

  test('uniform stays inside its bounds and centres between them', () => {
    const random = seeded(1);
    const values = draw(20_000, () => random.uniform(-2, 4));
    expect(Math.min(...values)).toBeGreaterThanOrEqual(-2);
    expect(Math.max(...values)).toBeLessThan(4);
    // Standard error of the mean of 20 000: 6/√12/√20000 = 0.012; five of them.
    expect(Math.abs(mean(values) - 1)).toBeLessThan(0.06);
  });

  test('normal has the mean and spread asked for', () => {
    const random = seeded(-3);
    const values = draw(20_000, () => random.normal(5, 2));
    const spread = Math.sqrt(mean(values.map((value) => (value - 5) ** 2)));
    expect(Math.abs(mean(values) - 5)).toBeLessThan(0.07);
    expect(Math.abs(spread - 2)).toBeLessThan(0.05);
  });

  test('a seed that is not a whole number is refused', () => {
    expect(() => seeded(0.5)).toThrow(RangeError);
  });
});
