import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reclock, worthMoving } from '../../../../../src/shared/measuring/runout/reclock.ts';
import { degrees, mm, radians } from '../../../../../src/shared/basics/quantity.ts';

const vector = (amplitude: number, degree: number, u = 0) => ({
  amplitude: mm(amplitude),
  highSpot: degrees(degree),
  u,
});
const amplitude = fc.double({ min: 0, max: 0.1, noNaN: true });
const place = fc.double({ min: 0, max: 360, noNaN: true });

describe('re-clocking the ring gear', () => {
  it('sets the gear’s own high spot against the flange’s', () => {
    // Flange 0.03 at 0°, gear 0.03 of its own at 0°: mounted 0.06; half a turn on they cancel.
    const [best] = reclock(vector(0.03, 0), vector(0.06, 0), 10);
    expect(best).toMatchObject({ holes: 5, tir: expect.closeTo(0, 12) as number });
    expect(best?.turn).toBeCloseTo(Math.PI, 12);
  });

  it('expects what mounting the gear there really shows', () => {
    fc.assert(
      fc.property(amplitude, place, amplitude, place, fc.integer({ min: 4, max: 16 }), (f, fAt, g, gAt, bolts) => {
        const shown = (turn: number) => {
          const [a, b] = [fAt * (Math.PI / 180), gAt * (Math.PI / 180) + turn];
          return { x: f * Math.cos(a) + g * Math.cos(b), y: f * Math.sin(a) + g * Math.sin(b) };
        };
        const now = shown(0);
        const mounted = { amplitude: mm(Math.hypot(now.x, now.y)), highSpot: radians(Math.atan2(now.y, now.x)), u: 0 };
        const positions = reclock(vector(f, fAt), mounted, bolts);
        expect(positions).toHaveLength(bolts);
        for (const { holes, tir } of positions) {
          const there = shown((2 * Math.PI * holes) / bolts);
          expect(tir).toBeCloseTo(2 * Math.hypot(there.x, there.y), 9);
        }
        expect(positions[0]?.tir).toBeLessThanOrEqual(2 * Math.hypot(now.x, now.y) + 1e-12);
      }),
    );
  });

  it('counts a face wobble of the flange at the radius of the gear', () => {
    // 0.02 at 50 mm is 0.04 at 100 mm: all of what the mounted gear shows, so no position is better than another.
    for (const { tir } of reclock(vector(0.02, 30), vector(0.04, 30), 8, 2)) expect(tir).toBeCloseTo(0.08, 12);
  });

  it('knows the present position best, and calls a small gain a guess', () => {
    const positions = reclock(vector(0.03, 0, 0.002), vector(0.04, 0, 0.002), 10);
    const now = positions.find(({ holes }) => holes === 0);
    expect(now?.u).toBeCloseTo(0.004, 12);
    for (const { u } of positions) expect(u).toBeGreaterThanOrEqual(0.004);
    expect(worthMoving(positions)).toBe(true);
    expect(worthMoving(reclock(vector(0.03, 0, 0.02), vector(0.04, 0, 0.02), 10))).toBe(false);
    expect(worthMoving(reclock(vector(0.03, 0), vector(0, 0), 10))).toBe(false);
  });
});
