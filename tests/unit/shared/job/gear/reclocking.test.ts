import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CaptureSettings } from '../../../../../src/shared/job/records/measurement.ts';
import { type Reclocking, type ReclockStand, reclocking } from '../../../../../src/shared/job/gear/reclocking.ts';
import { reclockWords } from '../../../../../src/shared/presentation/words/reclocking.ts';
import { cosine, runoutOf, standOf, streamed } from '../../../../support/records/gearStand.ts';

type Said = Pick<Extract<CaptureSettings, { kind: 'runout' }>, 'fromMesh_deg' | 'radius_mm'>;

const once = (amplitude_mm: number, highSpot_deg: number, u_mm = 0.002) =>
  runoutOf([{ order: 1, amplitude_mm, highSpot_deg }], u_mm);
const said: Said = { fromMesh_deg: 90, radius_mm: 100 };

/** Flange and gear as read, on a gear of so many bolts. */
function found(
  flange: ReturnType<typeof once>,
  gear: ReturnType<typeof once>,
  ringBolts: number | 'not-counted' = 10,
  places: readonly [Said, Said] = [said, said],
): ReclockStand | undefined {
  const { build, assembly } = standOf(
    [
      ['flange-runout', flange, streamed(places[0])],
      ['ring-gear-runout', gear, streamed(places[1])],
    ],
    ringBolts === 'not-counted' ? {} : { ringBolts },
  );
  return reclocking(build, assembly);
}

function answer(stand: ReclockStand | undefined): Reclocking {
  if (stand === undefined || 'ask' in stand) throw new Error('no answer');
  return stand;
}

describe('re-clocking the ring gear', () => {
  it('lays the gear’s own share against the flange’s', () => {
    // The flange is high at 0 by 0.02; the gear's own 0.02 lies with it: together 0.04. Half a turn on they cancel.
    const stand = answer(found(once(0.02, 0), once(0.04, 0)));
    expect(stand).toMatchObject({ worth: true, now: { holes: 0 }, best: { holes: 5 }, assumed: [] });
    expect(stand.now.tir_mm).toBeCloseTo(0.08, 9);
    expect(stand.best.tir_mm).toBeCloseTo(0, 9);
    expect(reclockWords(stand, 'metric')).toMatch(
      /^Bolt the ring gear 5 holes further on, clockwise as you look at its teeth\. Once a turn it should then run out by 0\.000 mm ± 0\.\d+ mm, now 0\.080 mm ± 0\.004 mm\.$/u,
    );
  });

  it('never promises more than the vectors allow', () => {
    const angle = fc.integer({ min: 0, max: 359 });
    const size = fc.double({ min: 0.005, max: 0.06, noNaN: true });
    fc.assert(
      fc.property(size, angle, size, angle, fc.integer({ min: 6, max: 16 }), (f, at, m, on, bolts) => {
        const stand = answer(found(once(f, at), once(m, on), bolts));
        const own = Math.sqrt(f * f + m * m - 2 * f * m * cosine(on - at));
        expect(stand.best.tir_mm).toBeGreaterThanOrEqual(2 * Math.abs(own - f) - 1e-9);
        expect(stand.best.tir_mm).toBeLessThanOrEqual(stand.now.tir_mm + 1e-9);
        if (stand.worth) expect(stand.now.tir_mm - stand.best.tir_mm).toBeGreaterThan(stand.now.U95_mm / 2);
      }),
      { numRuns: 40 },
    );
  });

  it('brings two readings with the stem at different sides together', () => {
    const same = answer(found(once(0.02, 0), once(0.04, 0)));
    // The stem stood 60° further on for the gear: its high spot came under it 60° earlier in the mesh's angle.
    const further = { fromMesh_deg: 150, radius_mm: 100 };
    const moved = answer(found(once(0.02, 0), once(0.04, 300), 10, [said, further]));
    expect(moved).toMatchObject({ worth: true, best: { holes: 5 } });
    expect(moved.best.tir_mm).toBeCloseTo(same.best.tir_mm, 9);
  });

  it('lets the flange’s wobble grow with the radius', () => {
    // Read at half the gear's radius the flange shows half its share: all of the gear's runout is the flange's, and no
    // position is better.
    const stand = answer(found(once(0.02, 0), once(0.04, 0), 10, [{ ...said, radius_mm: 50 }, said]));
    expect(stand.worth).toBe(false);
  });

  it('says what it took as usual where nobody noted it', () => {
    const stand = answer(found(once(0.02, 0), once(0.04, 0), 10, [{}, {}]));
    expect(stand.assumed).toEqual(['same-place', 'same-radius']);
    expect(reclockWords(stand, 'metric')).toContain('This takes it that the stem stood at the same side');
  });

  it('is not worth it where the doubt is as large as the gain', () => {
    const stand = answer(found(once(0.002, 0, 0.008), once(0.004, 0, 0.008)));
    expect(stand.worth).toBe(false);
    expect(reclockWords(stand, 'metric')).toMatch(/^No other bolt position is surely better/u);
  });

  it('asks for the bolts once both have been read with their places, and nothing before', () => {
    expect(found(once(0.02, 0), once(0.04, 0), 'not-counted')).toEqual({ ask: 'bolts' });
    expect(found(once(0.02, 0), { ...once(0.04, 0), harmonics: { none: 'no-angle' } })).toBeUndefined();
    const { build, assembly } = standOf([['ring-gear-runout', once(0.02, 0), streamed(said)]], { ringBolts: 10 });
    expect(reclocking(build, assembly)).toBeUndefined();
  });
});
