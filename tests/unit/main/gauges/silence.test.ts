import { describe, expect, it } from 'vitest';
import { rateMeter } from '../../../../src/main/gauges/rate.ts';
import { type SilenceWatch, silenceWatch } from '../../../../src/main/gauges/silence.ts';

/** Lets a gauge send every `gap_s` for a while, and says how long after its last line silence is noticed. */
function noticedAfter(watch: SilenceWatch, gap_s: number, lines: number): number | 'never' {
  watch.opened(0);
  let t = 0;
  for (let i = 0; i < lines; i += 1) {
    t += gap_s;
    watch.heard(t);
    if (watch.check(t + gap_s * 0.99)) return 'never';
  }
  for (let later = t; later < t + 60; later += 0.1) if (watch.check(later)) return later - t;
  return 'never';
}

describe('silence', () => {
  it.each([0.01, 0.02, 0.1])('of a gauge that sends every %s s is noticed within a second', (gap_s) => {
    expect(noticedAfter(silenceWatch(), gap_s, 50)).toBeLessThan(1);
  });

  it('is none while a gauge has sent too little to be known, or sends at a button', () => {
    expect(noticedAfter(silenceWatch(), 0.02, 5)).toBe('never');
    expect(noticedAfter(silenceWatch(), 3, 50)).toBe('never');
  });

  it('is owed an answer from the beginning where we ask', () => {
    expect(noticedAfter(silenceWatch(0.1), 0.1, 0)).toBeLessThan(1);
  });

  it('is told once, and its end once', () => {
    const watch = silenceWatch(0.1);
    watch.opened(0);
    expect([watch.check(2), watch.check(3), watch.heard(4), watch.heard(4.1)]).toEqual([true, false, true, false]);
  });
});

describe('the rate', () => {
  it('counts the last second and forgets what is older', () => {
    const rate = rateMeter();
    for (let i = 0; i < 500; i += 1) rate.count(10 + i / 100);
    expect(rate.perSecond(14.999)).toBe(100);
    expect(rate.perSecond(15.45)).toBeGreaterThan(40);
    expect(rate.perSecond(15.45)).toBeLessThan(60);
    expect(rate.perSecond(100)).toBe(0);
  });
});
