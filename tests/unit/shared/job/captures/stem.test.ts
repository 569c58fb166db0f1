import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { startCapture } from '../../../../../src/shared/job/captures/capture.ts';
import { stemEffect, stemMisreads } from '../../../../../src/shared/job/captures/stem.ts';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import type { BacklashBasis } from '../../../../../src/shared/basics/recorded.ts';
import type { BacklashResult, StemSaid } from '../../../../../src/shared/job/records/measurement.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import { script } from '../../measuring/backlash/scripted.ts';

const square: BacklashBasis = { direction: 'square-to-tooth', at: 'heel' };
const along: BacklashBasis = { direction: 'along-rotation', at: 'heel' };
const gauge = { id: 'g', label: 'Indicator', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } } as const;

/** Four stations rocked by hand, measured through the capture that runs live and when the bench records. */
function measured(basis: BacklashBasis, stem?: StemSaid) {
  const stream = script();
  stream.go(1);
  for (let station = 0; station < 4; station += 1) stream.lift(1).rocks(5, 1, 1.2);
  const settings = { kind: 'backlash', basis, nextBy: 'itself', ...(stem === undefined ? {} : { stem }) } as const;
  const capture = startCapture(settings, gauge);
  if (!capture.ok) throw new Error(capture.problem.sentence);
  const events = stream.items.flatMap((item) => [...capture.value.step(item)]);
  const result = capture.value.finish() as BacklashResult;
  return { events, result };
}

const numberOf = (value: unknown): number => {
  if (typeof value !== 'number') throw new Error(`no number: ${JSON.stringify(value)}`);
  return value;
};

describe('how the stem stood', () => {
  it('changes nothing where it stood as the basis wants it', () => {
    expect(measured(square, { tip: 'rides-flank', off_deg: 0 }).result).toEqual(measured(square).result);
    expect(measured(along, { tip: 'rides-flank', off_deg: 0 }).result).toEqual(measured(along).result);
  });

  it('frees a stem riding the flank square to the tooth from its slant: it read high', () => {
    const plain = measured(square).result;
    const slanted = measured(square, { tip: 'rides-flank', off_deg: 20 }).result;
    // 20° off reads 6.4 % high (derived: 1/cos 20°).
    expect(numberOf(plain.mean_mm) / numberOf(slanted.mean_mm)).toBeCloseTo(1.0642, 4);
    expect(numberOf(slanted.variation_mm)).toBeCloseTo(numberOf(plain.variation_mm) * Math.cos(Math.PI / 9), 9);
  });

  it('frees the doubts by the same factor as the value, and those of mean and variation with them', () => {
    const plain = measured(square).result;
    const slanted = measured(square, { tip: 'rides-flank', off_deg: 20 }).result;
    const factor = Math.cos(Math.PI / 9);
    for (const [index, station] of plain.stations.entries()) {
      const freed = slanted.stations[index];
      expect(freed?.parts.map(({ u }) => u / factor)).toEqual(station.parts.map(({ u }) => expect.closeTo(u, 12)));
      expect(numberOf(freed?.U95_mm)).toBeCloseTo(numberOf(station.U95_mm) * factor, 9);
      expect(freed?.number).toBe(index + 1);
    }
    expect(numberOf(slanted.meanU95_mm)).toBeCloseTo(numberOf(plain.meanU95_mm) * factor, 9);
    expect(numberOf(slanted.variationU95_mm)).toBeCloseTo(numberOf(plain.variationU95_mm) * factor, 9);
  });

  it('frees a stem following a point along the turn: it read low', () => {
    const plain = measured(along).result;
    const slanted = measured(along, { tip: 'follows-point', off_deg: 20 }).result;
    expect(numberOf(slanted.mean_mm) / numberOf(plain.mean_mm)).toBeCloseTo(1.0642, 4);
  });

  it('corrects nothing where nobody can say which way it is off, and doubts it instead', () => {
    const plain = measured(along).result;
    const slanted = measured(along, { tip: 'rides-flank', off_deg: 10 }).result;
    expect(slanted.mean_mm).toBe(plain.mean_mm);
    const [before, after] = [plain.stations[0], slanted.stations[0]];
    expect(numberOf(after?.U95_mm)).toBeGreaterThan(2 * numberOf(before?.U95_mm));
    expect(after?.parts.map(({ name }) => name)).toContain('stem angle');
  });

  it('reaches the result with an angle and a radius that are known only so well', () => {
    const said = { tip: 'rides-flank', off_deg: 10, offWithin_deg: 5, radius_mm: 100, radiusWithin_mm: 3 } as const;
    const [station] = measured(square, said).result.stations;
    const parts = station?.parts ?? [];
    const value = numberOf(station?.value_mm);
    // ±3 mm at 100 mm is worth 3/√3 %: derived.
    expect(parts.find(({ name }) => name === 'stem radius')?.u).toBeCloseTo((value * 0.03) / Math.sqrt(3), 9);
    expect(parts.some(({ name }) => name === 'stem angle')).toBe(true);
    const squares = parts.reduce((sum, { u }) => sum + u * u, 0);
    expect(numberOf(station?.u_mm)).toBeCloseTo(Math.sqrt(squares), 9);
  });

  it('says the same number while measuring and in the record', () => {
    const { events, result } = measured(square, { tip: 'rides-flank', off_deg: 15, offWithin_deg: 5 });
    const done = events.flatMap((event) => (event.kind === 'station-done' ? [event.measured] : []));
    const values = result.stations.map(({ value_mm }) => value_mm);
    expect(done.length).toBeGreaterThan(2);
    expect(done.map(({ value }) => value)).toEqual(values.slice(0, done.length));
    expect(done.map(({ U95 }) => U95)).toEqual(result.stations.slice(0, done.length).map(({ U95_mm }) => U95_mm));
    const rocks = events.flatMap((event) => (event.kind === 'rock-counted' ? [event.value] : []));
    expect(Math.abs((rocks[0] ?? 0) - 0.2 * Math.cos(Math.PI / 12))).toBeLessThan(0.003);
  });

  it('never makes a number surer', () => {
    const anyStem = fc.record({
      tip: fc.constantFrom('rides-flank' as const, 'follows-point' as const),
      off_deg: fc.double({ min: 0, max: 45, noNaN: true }),
      offWithin_deg: fc.double({ min: 0.1, max: 30, noNaN: true }),
    });
    fc.assert(
      fc.property(anyStem, fc.constantFrom(square, along), (said, basis) => {
        const { factor, partsFor } = stemEffect(basis, said);
        const misread = stemMisreads(basis, said);
        expect(factor * (1 + (misread ?? 0))).toBeCloseTo(1, 9);
        expect(partsFor(mm(0.2)).every(({ u }) => u >= 0)).toBe(true);
        const without = stemEffect(basis, { tip: said.tip, off_deg: said.off_deg }).partsFor(mm(0.2));
        const sum = (parts: readonly { readonly u: number }[]) => Math.hypot(...parts.map(({ u }) => u));
        expect(sum(partsFor(mm(0.2)))).toBeGreaterThan(sum(without));
      }),
    );
  });

  it('leaves a station without a number without one', () => {
    const stream = script();
    stream.go(1).lift(1).rocks(1, 1, 1.2).lift(1);
    const stem = { tip: 'rides-flank', off_deg: 20 } as const;
    const capture = startCapture({ kind: 'backlash', basis: square, nextBy: 'itself', stem }, gauge);
    if (!capture.ok) throw new Error(capture.problem.sentence);
    for (const item of stream.items) capture.value.step(item);
    const result = capture.value.finish() as BacklashResult;
    expect(result.stations.every(({ value_mm, U95_mm }) => isNone(value_mm) && isNone(U95_mm))).toBe(true);
  });
});
