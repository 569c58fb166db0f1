import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  annulus,
  arc,
  clockPoint,
  coordinate,
  line,
  polygon,
  polyline,
  smoothClosed,
} from '../../../../../src/shared/presentation/drawing/paths.ts';
import { pathPoints } from '../../../../support/drawings/look.ts';

const centre = { x: 100, y: 100 };

describe('paths', () => {
  it('writes coordinates to a hundredth, never as minus zero or with an exponent', () => {
    expect(coordinate(1 / 3)).toBe('0.33');
    expect(coordinate(-0.001)).toBe('0');
    expect(coordinate(1e-9)).toBe('0');
  });

  it('counts clock angles from the top, clockwise on a page whose y runs down', () => {
    expect(clockPoint(centre, 10, 0)).toEqual({ x: 100, y: 90 });
    expect(clockPoint(centre, 10, 90).x).toBeCloseTo(110, 9);
    expect(clockPoint(centre, 10, 90).y).toBeCloseTo(100, 9);
    expect(clockPoint(centre, 10, 180).y).toBeCloseTo(110, 9);
  });

  it('takes the long way round for an arc of more than half a turn', () => {
    expect(arc(centre, 10, 0, 90)).toBe('M100 90A10 10 0 0 1 110 100');
    expect(arc(centre, 10, 0, 270)).toBe('M100 90A10 10 0 1 1 90 100');
  });

  it('runs the hole of an annulus the other way round, as the non-zero rule needs', () => {
    const sweeps = [...annulus(centre, 5, 10).matchAll(/A\S+ \S+ 0 0 (\d)/gu)].map((match) => match[1]);
    expect(sweeps).toEqual(['1', '1', '0', '0']);
  });

  it('draws nothing of too few points', () => {
    expect(polyline([centre])).toBe('');
    expect(polygon([centre, centre])).toBe('');
    expect(smoothClosed([centre, centre])).toBe('');
    expect(line(centre, centre)).toBe('M100 100L100 100');
  });

  it('passes a smooth curve through every point it was given', () => {
    const point = fc.record({ x: fc.integer({ min: 0, max: 500 }), y: fc.integer({ min: 0, max: 500 }) });
    fc.assert(
      fc.property(fc.array(point, { minLength: 3, maxLength: 20 }), (points) => {
        const drawn = pathPoints(smoothClosed(points)).filter((_, index) => index % 3 === 0);
        expect(drawn.slice(0, -1)).toEqual(points);
      }),
      { seed: 11 },
    );
  });
});
