import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimated, stretchesOf, type TracePoint } from '../../../../../src/shared/presentation/drawing/decimate.ts';
import type { PathElement, Scene } from '../../../../../src/shared/presentation/drawing/scene.ts';
import { traceScene } from '../../../../../src/shared/presentation/drawing/trace.ts';
import { flat, pathPoints, placesOf, wordsOf } from '../../../../support/drawings/look.ts';
import { rockingTrace, torqueTrace } from '../../../../support/drawings/samples.ts';

const traceLines = (scene: Scene): readonly PathElement[] =>
  flat(scene.elements).filter(
    (element): element is PathElement =>
      element.kind === 'path' && element.stroke === 'text' && element.width === 1.8 && element.cap === 'round',
  );

describe('thinning a trace', () => {
  const readings = fc
    .array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 1, maxLength: 400 })
    .map((values) => values.map((v, index) => ({ t: index / 100, v })));

  it('loses neither the largest nor the smallest nor the ends, and keeps time in order', () => {
    fc.assert(
      fc.property(readings, (stretch) => {
        const kept = decimated(stretch, 0.1);
        const values = (points: readonly { v: number }[]): number[] => points.map(({ v }) => v);
        expect(Math.max(...values(kept))).toBe(Math.max(...values(stretch)));
        expect(Math.min(...values(kept))).toBe(Math.min(...values(stretch)));
        expect(kept[0]).toEqual(stretch[0]);
        expect(kept.at(-1)).toEqual(stretch.at(-1));
        expect(kept.map(({ t }) => t)).toEqual(kept.map(({ t }) => t).toSorted((a, b) => a - b));
      }),
      { seed: 41 },
    );
  });

  it('never keeps more than four readings a column', () => {
    const many = Array.from({ length: 10_000 }, (_, index) => ({ t: index / 1000, v: Math.sin(index) }));
    expect(decimated(many, 0.1).length).toBeLessThanOrEqual(4 * 101);
  });

  it('cuts at every reading that is not a number', () => {
    const gap: TracePoint = { t: 2, v: { none: 'unplugged' } };
    const points: readonly TracePoint[] = [{ t: 0, v: 1 }, { t: 1, v: 2 }, gap, gap, { t: 3, v: 3 }];
    expect(stretchesOf(points)).toEqual([
      [
        { t: 0, v: 1 },
        { t: 1, v: 2 },
      ],
      [{ t: 3, v: 3 }],
    ]);
  });
});

describe('the trace', () => {
  it('leaves a gap where readings are missing', () => {
    const [before, after] = traceLines(traceScene(rockingTrace)).map(({ d }) => pathPoints(d));
    const width = (900 - 16 - 16 * 4.6) / 12;
    const missing = (after?.[0]?.x ?? 0) - (before?.at(-1)?.x ?? 0);
    expect(missing).toBeCloseTo(0.71 * width, -1);
  });

  it('marks breakaway at its peak and running over its stretch, in words and figures', () => {
    const scene = traceScene(torqueTrace);
    const ring = flat(scene.elements).find((element) => element.kind === 'circle');
    const peak = traceLines(scene)
      .flatMap(({ d }) => pathPoints(d))
      .reduce((top, point) => (point.y < top.y ? point : top));
    expect(ring).toMatchObject({ x: expect.closeTo(peak.x, 0) as number, y: expect.closeTo(peak.y, 0) as number });
    expect(wordsOf(scene)).toEqual(expect.arrayContaining(['breakaway 3.00 N·m', 'running 2.10 N·m', '1.7', '2.5']));
  });

  it('puts the newest reading at the right edge and measures time with a round bar', () => {
    const scene = traceScene(torqueTrace);
    const last = pathPoints(traceLines(scene)[0]?.d ?? '').at(-1);
    expect(last?.x).toBeCloseTo(900 - 16, 0);
    expect(wordsOf(scene)).toContain('5 s');
  });

  it('says plainly that there is nothing yet', () => {
    const scene = traceScene({ ...torqueTrace, points: [], events: [] });
    expect(scene.description).toContain('No readings yet.');
    for (const { x, y } of placesOf(scene)) expect(Number.isFinite(x + y)).toBe(true);
  });

  it('counts rests, rocks and gaps for whoever cannot see them', () => {
    expect(traceScene(rockingTrace).description).toBe('Last reading 0.001 mm. Rests: 7. Rocks: 2. Gaps: 1.');
  });

  it('draws a lone reading between two gaps', () => {
    const gap = { none: 'unplugged' };
    const points: readonly TracePoint[] = [
      { t: 0, v: gap },
      { t: 1, v: 2 },
      { t: 2, v: gap },
    ];
    const scene = traceScene({ ...torqueTrace, points, events: [] });
    expect(flat(scene.elements).filter(({ kind }) => kind === 'circle')).toHaveLength(1);
  });
});
