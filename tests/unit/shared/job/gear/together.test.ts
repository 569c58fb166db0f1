import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeSet } from '../../../../../src/shared/axle/mesh/meshModel.ts';
import { backlashRate } from '../../../../../src/shared/axle/mesh/rates.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import { runoutToBacklash } from '../../../../../src/shared/job/gear/runoutToBacklash.ts';
import { gearTogether } from '../../../../../src/shared/job/gear/together.ts';
import { togetherWords } from '../../../../../src/shared/presentation/words/together.ts';
import { makeUp, seen } from '../../../../support/records/scenario.ts';
import { backlashRound, cosine, runoutOf, standOf, streamed } from '../../../../support/records/gearStand.ts';

const heel = { direction: 'along-rotation', at: 'heel' } as const;

const rateOf = (stem_mm?: number) => {
  const rate = runoutToBacklash(makeUp, heel, stem_mm);
  if (isNone(rate)) throw new Error(rate.none);
  return rate;
};
const { perMm } = rateOf(100);

/** A gear that wobbles by `amplitude`, high at `high` on the gear, read with the stem `from` further on than the mesh. */
function stand(amplitude: number, high: number, from: number, extra: (angle: number) => number = () => 0) {
  const backlash = backlashRound(8, (at) => 0.2 + perMm * amplitude * cosine(at - high) + extra(at));
  const read = runoutOf([{ order: 1, amplitude_mm: amplitude, highSpot_deg: (high - from + 360) % 360 }]);
  return standOf([
    ['ring-gear-runout', read, streamed({ fromMesh_deg: from, radius_mm: 100 })],
    ['backlash', backlash, seen],
  ]);
}

const answerOf = (one: ReturnType<typeof standOf>) => gearTogether(one.build, one.assembly);

describe('backlash and runout of one assembly', () => {
  it('fit where the gear wobbles, wherever high spot and indicator were', () => {
    const angle = fc.integer({ min: 0, max: 359 });
    fc.assert(
      fc.property(angle, angle, (high, from) => {
        const found = answerOf(stand(0.03, high, from));
        expect(found).toMatchObject({ answer: 'explained', odd: [] });
        if (found?.answer !== 'explained') return;
        // The teeth go away from the pinion where the back face comes towards its indicator: widest at the high spot.
        expect(Math.abs(((found.widestAt_deg - high + 540) % 360) - 180)).toBeLessThanOrEqual(1);
        expect(found.expected_mm).toBeCloseTo(2 * 0.03 * perMm, 3);
      }),
      { numRuns: 12 },
    );
  });

  it('do not fit where the high spot lies elsewhere', () => {
    const read = runoutOf([{ order: 1, amplitude_mm: 0.03, highSpot_deg: 130 }]);
    const found = answerOf(
      standOf([
        ['ring-gear-runout', read, streamed({ fromMesh_deg: 90, radius_mm: 100 })],
        ['backlash', backlashRound(8, (at) => 0.2 + 0.027 * cosine(at - 40)), seen],
      ]),
    );
    expect(found?.answer).toBe('not-explained');
    if (found === undefined) return;
    expect(togetherWords(found, 'metric').why).toMatch(/is left over, widest at \d+°\. Take the backlash anew/u);
  });

  it('names the station that stands off', () => {
    const found = answerOf(stand(0.03, 40, 90, (at) => (at === 90 ? 0.06 : 0)));
    expect(found?.answer).toBe('not-explained');
    if (found?.answer !== 'not-explained') return;
    expect(found.odd).toContain(3);
    expect(togetherWords(found, 'metric').why).toMatch(/Stations? (\d, )*3/u);
  });

  it('have nothing to explain on a gear that runs true', () => {
    const found = answerOf(stand(0.0005, 0, 90));
    expect(found?.answer).toBe('nothing-to-explain');
    if (found === undefined) return;
    expect(togetherWords(found, 'inch').why).toMatch(/varies by 0\.0000 in\./u);
  });

  it('cannot be told together, and say why', () => {
    const runout = runoutOf([{ order: 1, amplitude_mm: 0.03, highSpot_deg: 10 }]);
    const backlash = backlashRound(8, () => 0.2);
    const why = (...measurements: Parameters<typeof standOf>[0]) => {
      const found = answerOf(standOf(measurements));
      return found?.answer === 'cannot-tell' ? found.reason : found?.answer;
    };
    const placed = streamed({ fromMesh_deg: 90 });
    expect(why(['ring-gear-runout', runout, streamed({})], ['backlash', backlash, seen])).toBe('no-angle');
    const notKnown = streamed({ fromMesh_deg: { none: 'not-known' } });
    expect(why(['ring-gear-runout', runout, notKnown], ['backlash', backlash, seen])).toBe('no-angle');
    const unplaced = { ...runout, harmonics: { none: 'no-angle' } };
    expect(why(['ring-gear-runout', unplaced, placed], ['backlash', backlash, seen])).toBe('no-harmonics');
    const few = backlashRound(2, () => 0.2);
    expect(why(['ring-gear-runout', runout, placed], ['backlash', few, seen])).toBe('too-few-stations');
    const { outerDiameter_mm: _, ...unsized } = makeUp;
    expect(runoutToBacklash(unsized, { ...heel, at: { radius_mm: 95 } })).toEqual({ none: 'no-size' });
  });

  it('say nothing while one of them is missing', () => {
    expect(answerOf(standOf([['backlash', backlashRound(8, () => 0.2), seen]]))).toBeUndefined();
  });
});

describe('what the mesh makes of a runout', () => {
  it('is doubted by as much as pressure angle, spiral and offset can move it', () => {
    const { pinionTeeth, ringTeeth } = makeUp;
    const rate = (more: object): number => {
      const set = describeSet({ pinionTeeth, ringTeeth, outerDiameter_mm: 220, cut: 'face-milled', ...more });
      if (!set.ok) throw new Error(set.problem.sentence);
      return backlashRate(set.value, 'ringAway').transverseHeel;
    };
    const usual = rate({});
    const half = (...ends: readonly object[]) =>
      Math.max(...ends.map((one) => Math.abs(rate(one) / usual - 1))) / Math.sqrt(3);
    const together = Math.hypot(
      half({ pressureAngle_deg: 18 }, { pressureAngle_deg: 22.5 }),
      half({ pinionSpiral_deg: 30 }, { pinionSpiral_deg: 40 }),
      half({ offset_mm: 0.1 * 220 }, { offset_mm: 0.18 * 220 }),
    );
    const { u } = rateOf(100);
    expect(together).toBeGreaterThan(0.08);
    expect(Math.abs(u / perMm - together)).toBeLessThan(0.02);
  });

  it('is surer with the radius of the stem, and needs no size without one', () => {
    const known = rateOf(100);
    const open = rateOf();
    expect(open.u / open.perMm).toBeGreaterThan(known.u / known.perMm);
    const { outerDiameter_mm: _, ...unsized } = makeUp;
    expect(runoutToBacklash(unsized, heel)).toMatchObject({ perMm: expect.closeTo(open.perMm, 6) as number });
  });

  it('is less square to the tooth than along the turn', () => {
    const square = runoutToBacklash(makeUp, { direction: 'square-to-tooth', at: 'heel' }, 100);
    if (isNone(square)) throw new Error(square.none);
    // Transverse over normal is 1.30 at 20° and 35°; at the heel the spiral is steeper.
    expect(perMm / square.perMm).toBeGreaterThan(1.25);
    expect(perMm / square.perMm).toBeLessThan(1.45);
  });
});
