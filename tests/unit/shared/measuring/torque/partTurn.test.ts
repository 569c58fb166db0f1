import { describe, expect, it } from 'vitest';
import { correlationFactor } from '../../../../../src/shared/measuring/torque/correlated.ts';
import { meanOverTurn } from '../../../../../src/shared/measuring/torque/turnFit.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';

const many = 48;
const placesOf = (turns: number) => Array.from({ length: many }, (_, i) => (turns * i) / (many - 1));
const seen = (turns: number, wave: (place: number) => number) => placesOf(turns).map((place) => 2 * (1 + wave(place)));
const known = (turns: number) => [{ turns, weight: 1, places: placesOf(turns) }];

describe('part of a turn', () => {
  it('of nine tenths tells the mean of the whole turn, which the mean of what was seen does not', () => {
    const values = seen(0.9, (place) => 0.12 * Math.cos(2 * Math.PI * (place - 0.45)));
    const plain = values.reduce((sum, value) => sum + value, 0) / many;
    const { mean, u, partly } = meanOverTurn(values, known(0.9), 0.003);
    expect(Math.abs(plain - 2)).toBeGreaterThan(0.02);
    expect(Math.abs(mean - 2)).toBeLessThan(Math.min(0.01, 2 * u));
    expect(partly).toBe(1);
  });

  it('leaves the more open, the less was seen', () => {
    const doubts = [0.4, 0.5, 0.7, 0.9].map(
      (turns) =>
        meanOverTurn(
          seen(turns, (place) => 0.1 * Math.cos(2 * Math.PI * (place - 0.1))),
          known(turns),
          0.003,
        ).u,
    );
    expect(doubts.toSorted((a, b) => b - a)).toEqual(doubts);
    expect(doubts[0]).toBeGreaterThan(0.02);
  });

  it('covers the mean of waves it did not see', () => {
    const random = seeded(5);
    const runs = Array.from({ length: 120 }, () => {
      const [turns, share, at] = [random.uniform(0.4, 0.9), random.uniform(0, 0.15), random.next()];
      const wave = (place: number) => share * Math.cos(2 * Math.PI * (place - at)) + random.normal(0, 0.002);
      const { mean, u } = meanOverTurn(seen(turns, wave), known(turns), 0.003);
      return Math.abs(mean - 2) <= 1.96 * u;
    });
    expect(runs.filter(Boolean).length).toBeGreaterThanOrEqual(0.9 * runs.length);
  });

  it('does not know how much was seen where nothing tells, and doubts accordingly', () => {
    const values = seen(0.5, (place) => 0.1 * Math.cos(2 * Math.PI * (place - 0.1)));
    const guesses = [0.3, 0.5, 0.8, 1.2, 2].flatMap((turns) => known(turns));
    const blind = meanOverTurn(values, guesses, 0.003);
    expect(blind.partly).toBeGreaterThan(0.5);
    expect(blind.u).toBeGreaterThan(meanOverTurn(values, known(0.5), 0.003).u);
  });

  it('of a shaft that runs true is no matter', () => {
    const { mean, u, change } = meanOverTurn(
      seen(3, () => 0),
      known(3),
      0.003,
    );
    expect(mean).toBeCloseTo(2, 9);
    expect(u).toBeLessThan(0.002);
    expect(change).toBeCloseTo(0, 9);
  });

  it('tells a slow change from waves', () => {
    const values = placesOf(4).map((place) => 2 - 0.05 * place + 0.1 * Math.cos(2 * Math.PI * place));
    expect(meanOverTurn(values, known(4), 0.003).change).toBeCloseTo(-0.2, 1);
  });
});

describe('residuals that hang together', () => {
  it('are worth fewer than they are', () => {
    const random = seeded(9);
    const white = Array.from({ length: 400 }, () => random.normal(0, 1));
    let last = 0;
    const slow = white.map((value) => (last = 0.8 * last + value));
    expect(correlationFactor(white)).toBeLessThan(2);
    // A first-order process of 0.8: (1 + 0.8)/(1 − 0.8) = 9 (derived).
    expect(correlationFactor(slow)).toBeGreaterThan(4.5);
    expect(correlationFactor(slow)).toBeLessThan(18);
  });

  it('that cancel count as they are', () => {
    expect(correlationFactor([1, -1, 1, -1, 1, -1, 1, -1])).toBe(1);
    expect(correlationFactor([0, 0, 0, 0, 0])).toBe(1);
    expect(correlationFactor([1])).toBe(1);
  });
});
