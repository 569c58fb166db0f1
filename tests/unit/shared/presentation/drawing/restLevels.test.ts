import { describe, expect, it } from 'vitest';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import { restLevels } from '../../../../../src/shared/presentation/drawing/restLevels.ts';
import { traceScene } from '../../../../../src/shared/presentation/drawing/trace.ts';
import { flat, wordsOf } from '../../../../support/drawings/look.ts';
import { rockingTrace, torqueTrace } from '../../../../support/drawings/samples.ts';

const rest = (t: number, v: number) => ({ kind: 'rest', t, until: t + 0.3, v }) as const;

describe('the levels a gear rocks between', () => {
  it('takes the lower rest as zero and the newest rest of the other side as the level', () => {
    const levels = restLevels([rest(1, -2), rest(2, -1.737), rest(3, -1.999), rest(4, -1.74), rest(5, -2.001)], 0);
    expect(levels?.zero).toBe(-2.001);
    expect(levels?.level).toBeCloseTo(0.261, 9);
  });

  it('knows only zero while one side alone has been seen, and nothing before the first rest', () => {
    expect(restLevels([rest(1, 0.4), rest(2, 0.402)], 0)).toEqual({ zero: 0.4 });
    expect(restLevels([], 0)).toBeUndefined();
  });

  it('leaves out the rests of the tooth before', () => {
    expect(restLevels([rest(1, -5), rest(2, -4.7), rest(8, 0.1)], 7)).toEqual({ zero: 0.1 });
  });
});

describe('a trace from its rest', () => {
  it('writes zero, the window and the level, each from the rest', () => {
    const words = wordsOf(
      traceScene({
        ...rockingTrace,
        points: rockingTrace.points.map((point) => (isNone(point.v) ? point : { ...point, v: point.v - 2 })),
        events: [],
        band: { min: 0.15, max: 0.25 },
        zero: -2,
        level: 0.212,
      }),
    );
    expect(words).toEqual(expect.arrayContaining(['0.00', '0.15', '0.25', '0.212 mm']));
  });

  it('has a line at zero for torque, and its number', () => {
    expect(wordsOf(traceScene(torqueTrace))).toContain('0.0');
  });

  it('scales to the readings that count and points after those that left the picture', () => {
    const points = Array.from({ length: 400 }, (_, index) => ({
      t: index / 40,
      v: index < 100 ? 4.5 : 0.01 * Math.sin(index / 20),
    }));
    const input = { ...rockingTrace, points, events: [], span_s: 10 };
    const scaled = traceScene({ ...input, calm: true });
    const heights = (scene: ReturnType<typeof traceScene>): number => {
      const ys = flat(scene.elements)
        .flatMap((element) =>
          element.kind === 'path' && element.cap === 'round' ? (element.d.match(/-?[\d.]+ -?[\d.]+/gu) ?? []) : [],
        )
        .map((pair) => Number(pair.split(' ')[1]));
      const late = ys.slice(Math.floor(ys.length * 0.6));
      return Math.max(...late) - Math.min(...late);
    };
    expect(heights(scaled)).toBeGreaterThan(10 * heights(traceScene(input)));
    const chevrons = (scene: ReturnType<typeof traceScene>): number =>
      flat(scene.elements).filter(
        (element) =>
          element.kind === 'path' && (element.d.match(/L/gu) ?? []).length === 2 && element.stroke === 'text',
      ).length;
    expect(chevrons(scaled)).toBe(chevrons(traceScene(input)) + 1);
  });
});
