import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ringScene } from '../../../../../src/shared/presentation/drawing/ring.ts';
import type { RingInput } from '../../../../../src/shared/presentation/drawing/ringInput.ts';
import { freeAngle, numberAngles } from '../../../../../src/shared/presentation/drawing/ringLayout.ts';
import type { CircleElement, PathElement, Scene } from '../../../../../src/shared/presentation/drawing/scene.ts';
import { backlashRing, bothRing, inchLiveRing, runoutRing } from '../../../../support/drawings/samples.ts';
import { flat, pathPoints, placesOf, textSaying, wordsOf } from '../../../../support/drawings/look.ts';

const centre = { x: 280, y: 280 };

const discs = (scene: Scene, ink: string): readonly CircleElement[] =>
  flat(scene.elements).filter((element): element is CircleElement => element.kind === 'circle' && element.fill === ink);

const paths = (scene: Scene, test: (path: PathElement) => boolean): readonly PathElement[] =>
  flat(scene.elements).filter((element): element is PathElement => element.kind === 'path' && test(element));

const radiusOf = ({ x, y }: { x: number; y: number }): number => Math.hypot(x - centre.x, y - centre.y);

const angleOf = ({ x, y }: { x: number; y: number }): number =>
  ((Math.atan2(x - centre.x, centre.y - y) * 180) / Math.PI + 360) % 360;

const one = (value_mm: number, angle_deg = 0): RingInput['stations'][number] => ({
  number: 1,
  angle_deg,
  value_mm,
  state: 'within',
});

/** Radii of three readings on one scale that none of them changes. */
function radii(values: readonly number[]): readonly number[] {
  const stations = values.map((value, index) => one(value, index * 120));
  return discs(ringScene({ ...backlashRing, stations }), 'within').map(radiusOf);
}

describe('the ring', () => {
  it('has a tick for every tooth', () => {
    const ticks = paths(ringScene(backlashRing), ({ d }) => (d.match(/M/gu) ?? []).length === 41);
    expect(ticks).toHaveLength(1);
  });

  it('puts stations clockwise at their angles', () => {
    const scene = ringScene({ ...backlashRing, stations: [one(0.25, 0), one(0.25, 90), one(0.25, 135)] });
    expect(discs(scene, 'within').map(angleOf).map(Math.round)).toEqual([0, 90, 135]);
  });

  it('draws values outwards on an even scale', () => {
    const [low = 0, middle = 0, high = 0] = radii([0.21, 0.24, 0.27]);
    expect(high).toBeGreaterThan(low);
    expect(middle - low).toBeCloseTo(high - middle, 6);
  });

  it('puts a reading at the limit exactly on the edge of the band', () => {
    const scene = ringScene({ ...backlashRing, stations: [one(0.3), one(0.2, 180)] });
    const band = paths(scene, ({ fill }) => fill === 'band')[0];
    const edges = new Set(pathPoints(band?.d ?? '').map((point) => Math.round(radiusOf(point) * 10)));
    for (const disc of discs(scene, 'within')) expect(edges).toContain(Math.round(radiusOf(disc) * 10));
  });

  it('gives no place on the scale to a station without a number', () => {
    const scene = ringScene(backlashRing);
    const hollow = flat(scene.elements).filter(
      (element) => element.kind === 'circle' && element.stroke === 'not-measured',
    ) as CircleElement[];
    const furthest = Math.max(...discs(scene, 'within').map(radiusOf));
    expect(hollow).toHaveLength(1);
    expect(radiusOf(hollow[0] ?? centre)).toBeGreaterThan(furthest);
    expect(angleOf(hollow[0] ?? centre)).toBeCloseTo(240, 3);
  });

  it('draws the uncertainty as long as the scale says', () => {
    const doubt = { ...one(0.25), U95_mm: 0.02 };
    const scene = ringScene({ ...backlashRing, stations: [doubt, one(0.23, 120), one(0.27, 240)] });
    const bar = paths(scene, ({ stroke }) => stroke === 'within')[0];
    const [inner, outer] = pathPoints(bar?.d ?? '').map(radiusOf);
    const [, low = 0, high = 0] = discs(scene, 'within').map(radiusOf);
    expect((outer ?? 0) - (inner ?? 0)).toBeCloseTo(high - low, 1);
  });

  it('keeps the accent for the station that is next, and uses none without one', () => {
    const inks = (input: RingInput): number => JSON.stringify(ringScene(input).elements).split('"accent"').length - 1;
    const { next, ...without } = backlashRing;
    expect(next).toBe(5);
    expect(inks(backlashRing)).toBe(2);
    expect(inks(without)).toBe(0);
  });

  it('marks the high spot full and its opposite hollow, on the same angles as the stations', () => {
    const wedges = paths(
      ringScene(runoutRing),
      ({ d, fill }) => d.endsWith('Z') && (fill === 'text' || fill === 'ground'),
    );
    const tips = wedges.map(({ d }) => angleOf(pathPoints(d)[1] ?? centre));
    expect(wedges.map(({ fill }) => fill)).toEqual(['text', 'ground']);
    expect(tips[0]).toBeCloseTo(128, 0);
    expect(tips[1]).toBeCloseTo(308, 0);
  });

  it('draws runout furthest out at its high spot', () => {
    const curve = paths(ringScene(bothRing), ({ d, stroke }) => stroke === 'text' && d.includes('C'))[0];
    const points = pathPoints(curve?.d ?? '');
    const highest = points.reduce((far, point) => (radiusOf(point) > radiusOf(far) ? point : far), centre);
    expect(Math.abs(angleOf(highest) - 128)).toBeLessThan(15);
  });

  it('shows a live reading of unknown place as a whole circle', () => {
    const { live, ...rest } = inchLiveRing;
    expect(live?.angle_deg).toBe(120);
    const scene = ringScene({ ...rest, live: { value_mm: 0.25 } });
    const whole = flat(scene.elements).filter((element) => element.kind === 'circle' && element.stroke === 'text');
    expect(whole).toHaveLength(1);
  });

  it('writes the limits and values in the units asked for', () => {
    expect(wordsOf(ringScene(backlashRing))).toEqual(expect.arrayContaining(['0.20 mm', '0.30', '0.331']));
    expect(wordsOf(ringScene(inchLiveRing))).toEqual(expect.arrayContaining(['0.0079 in', '0.0118', '0.0103']));
  });

  it('names every station and its state for whoever cannot see it', () => {
    const { description } = ringScene(backlashRing);
    expect(description).toContain('Station 4: 0.331 mm ± 0.008 mm, outside.');
    expect(description).toContain('Station 5: not measured.');
    expect(description).toContain('Window 0.200 mm to 0.300 mm.');
    expect(ringScene(runoutRing).description).toContain('Runout 0.062 mm TIR, high spot at 128°.');
  });

  it('leaves the numbers of many stations without their values', () => {
    const stations = Array.from({ length: 24 }, (_, index) => ({ ...one(0.25, index * 15), number: index + 1 }));
    const scene = ringScene({ ...backlashRing, stations });
    expect(wordsOf(scene)).not.toContain('0.250');
    expect(textSaying(scene, '24')).toBeDefined();
  });

  it('leaves out numbers that would lie on each other, and never the next one', () => {
    const stations = Array.from({ length: 60 }, (_, index) => ({
      number: index + 1,
      angle_deg: index * 6,
      value_mm: 0.25,
      state: 'within' as const,
    }));
    const numbers = wordsOf(ringScene({ ...backlashRing, stations, next: 30 }));
    expect(numbers).toEqual(expect.arrayContaining(['1', '4', '58', '30']));
    expect(numbers).not.toContain('2');
  });

  it('stays finite and inside its box whatever the readings', () => {
    const station = fc.record({
      number: fc.integer({ min: 1, max: 99 }),
      angle_deg: fc.double({ min: -720, max: 720, noNaN: true }),
      value_mm: fc.oneof(fc.double({ min: -5, max: 50, noNaN: true }), fc.constant({ none: 'drift' })),
      U95_mm: fc.double({ min: 0, max: 1, noNaN: true }),
      state: fc.constantFrom('within', 'outside', 'too-close', 'not-measured', 'overridden', 'stale'),
    });
    fc.assert(
      fc.property(fc.array(station, { maxLength: 20 }), fc.boolean(), (stations, runout) => {
        const scene = ringScene({
          ...backlashRing,
          stations,
          ...(runout ? { runout: { tir_mm: 0, samples: [] } } : {}),
        });
        for (const { x, y } of placesOf(scene)) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(560);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(560);
        }
      }),
      { seed: 13 },
    );
  });
});

describe('the angle for the scale', () => {
  it('keeps clear of every station', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 0, max: 359 }), (count, start) => {
        const stations = Array.from({ length: count }, (_, index) => start + (index * 360) / count);
        const angle = freeAngle(stations);
        const nearest = Math.min(...stations.map((at) => Math.abs(((at - angle + 540) % 360) - 180)));
        expect(nearest).toBeGreaterThanOrEqual(14.9);
      }),
      { seed: 14 },
    );
  });
});

describe('the numbers in the scale', () => {
  it('stand in line while there is room, and across the ring where two circles lie close', () => {
    const four = [0, 90, 180, 270];
    expect(new Set(numberAngles([80, 100], four, 12)).size).toBe(1);
    const [first = 0, second = 0] = numberAngles([90, 100], four, 12);
    expect(Math.abs(first - second)).toBeGreaterThan(90);
  });

  it('go back to the line after a number that stands across', () => {
    const [first, second, third] = numberAngles([90, 95, 100], [0, 180], 12);
    expect(second).not.toBe(first);
    expect(third).toBe(first);
  });
});
