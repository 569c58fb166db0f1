import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { extremes, neighbours } from '../../../../../src/shared/presentation/drawing/ringExtremes.ts';
import type { RingInput, RingStation } from '../../../../../src/shared/presentation/drawing/ringInput.ts';
import { ringScene } from '../../../../../src/shared/presentation/drawing/ring.ts';
import type { CircleElement } from '../../../../../src/shared/presentation/drawing/scene.ts';
import { unrolledScene } from '../../../../../src/shared/presentation/drawing/unrolled.ts';
import { flat, pathPoints, wordsOf } from '../../../../support/drawings/look.ts';
import { backlashRing, bothRing, runoutRing } from '../../../../support/drawings/samples.ts';

const size = { width: 560, height: 190, text: 15 };
const unrolled = (input: RingInput) => unrolledScene({ ...input, size });

const discs = (input: RingInput): readonly CircleElement[] =>
  flat(unrolled(input).elements).filter(
    (element): element is CircleElement => element.kind === 'circle' && element.fill === 'within',
  );

const station = (number: number, value_mm: number, of = 4): RingStation => ({
  number,
  angle_deg: ((number - 1) * 360) / of,
  value_mm,
  state: 'within',
});

describe('the ring gear unrolled', () => {
  it('puts stations from left to right by their angle and larger values higher', () => {
    const marks = discs({
      ...backlashRing,
      stations: [station(1, 0.22), station(2, 0.25), station(3, 0.28), station(4, 0.24)],
    });
    expect(marks).toHaveLength(4);
    for (const [index, mark] of marks.slice(1).entries()) expect(mark.x).toBeGreaterThan(marks[index]?.x ?? 0);
    expect(marks[2]?.y).toBeLessThan(marks[1]?.y ?? 0);
    expect(marks[1]?.y).toBeLessThan(marks[3]?.y ?? 0);
  });

  it('shows a hundredth of a millimetre at least 5 px apart beside a window of 0.10 mm', () => {
    const [low, high] = discs({ ...backlashRing, stations: [station(1, 0.24), station(2, 0.25), station(3, 0.245)] });
    expect((low?.y ?? 0) - (high?.y ?? 0)).toBeGreaterThanOrEqual(5);
  });

  it('names the station that reads largest and the one that reads smallest', () => {
    expect(wordsOf(unrolled(backlashRing))).toEqual(expect.arrayContaining(['high', 'low', '0.30 mm', '0.20']));
  });

  it('says the same in words as the ring does', () => {
    expect(unrolled(bothRing).description).toBe(ringScene({ ...bothRing, size }).description);
  });

  it('writes the full movement and the high spot of a runout, and lays it in the middle of its limit', () => {
    const scene = unrolled(runoutRing);
    expect(wordsOf(scene)).toEqual(expect.arrayContaining(['runout', '0.062', 'high 128°', '90°']));
    const band = flat(scene.elements).find((element) => element.kind === 'path' && element.fill === 'band');
    const curve = flat(scene.elements).find(
      (element) => element.kind === 'path' && element.stroke === 'text' && element.dash === undefined,
    );
    const ys = (d: string): readonly number[] => pathPoints(d).map(({ y }) => y);
    const [top, bottom] = [Math.min(...ys(dOf(band))), Math.max(...ys(dOf(band)))];
    for (const y of ys(dOf(curve))) {
      expect(y).toBeGreaterThanOrEqual(top);
      expect(y).toBeLessThanOrEqual(bottom);
    }
  });

  it('gives the stations all the room where a runout has no shape, and says its number all the same', () => {
    const shapeless = unrolled({ ...backlashRing, runout: { tir_mm: 0.026, limit_mm: 0.08 } });
    expect(wordsOf(shapeless)).not.toContain('runout');
    expect(shapeless.elements).toEqual(unrolled(backlashRing).elements);
    expect(shapeless.description).toContain('Runout 0.026 mm TIR.');
  });

  it('keeps everything inside its room, whatever is read', () => {
    const value = fc.double({ min: -0.5, max: 2, noNaN: true });
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 24 }), (values) => {
        const stations = values.map((value_mm, index) => station(index + 1, value_mm, values.length));
        for (const { x, y } of discs({ ...backlashRing, stations })) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(size.width);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(size.height);
        }
      }),
    );
  });
});

const dOf = (element: { readonly kind: string } | undefined): string =>
  element !== undefined && 'd' in element && typeof element.d === 'string' ? element.d : '';

describe('the run of the stations', () => {
  it('is open where a station has no number', () => {
    const gap: RingStation = { ...station(3, 0), value_mm: { none: 'not-measured' }, state: 'not-measured' };
    const pairs = neighbours([station(1, 0.2), station(2, 0.21), gap, station(4, 0.22)]);
    expect(pairs.map(({ from, to }) => [from.angle_deg, to.angle_deg])).toEqual([
      [0, 90],
      [270, 0],
    ]);
  });

  it('has neither high nor low where all stations read alike or fewer than three have a number', () => {
    expect(extremes([station(1, 0.2), station(2, 0.2), station(3, 0.2)])).toEqual([]);
    expect(extremes([station(1, 0.2), station(2, 0.3)])).toEqual([]);
  });
});
