import { expect, test } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { chancesIn } from '../../../../../hardware-sim/worlds/axles/axle.ts';
import { base, drawKind, drawLike } from '../../../../../hardware-sim/worlds/axles/population.ts';
import { drawChances, ofKind } from '../../../../../hardware-sim/worlds/axles/shop.ts';

const cutOf = (bladeGroups: number | undefined): string => (bladeGroups === undefined ? 'milled' : 'hobbed');

test('another set by the same counts and diameter differs in what was not told, and in nothing else', () => {
  const random = seeded(5);
  const kind = drawKind(random, base);
  const others = Array.from({ length: 60 }, () => drawLike(random, kind, 'nothing-more'));
  for (const { drawn, window, variation, drive, heelRadius } of others) {
    const { pinionTeeth, ringTeeth, outerDiameter } = kind.drawn;
    expect(drawn).toMatchObject({ pinionTeeth, ringTeeth, outerDiameter });
    expect({ window, variation, drive, heelRadius }).toEqual({
      window: kind.window,
      variation: kind.variation,
      drive: kind.drive,
      heelRadius: kind.heelRadius,
    });
  }
  expect(new Set(others.map(({ drawn }) => cutOf(drawn.bladeGroups))).size).toBe(2);
  expect(new Set(others.map(({ drawn }) => drawn.offset)).size).toBeGreaterThan(10);
  const sameCut = Array.from({ length: 30 }, () => drawLike(random, kind, 'cut'));
  expect(new Set(sameCut.map(({ drawn }) => cutOf(drawn.bladeGroups)))).toEqual(
    new Set([cutOf(kind.drawn.bladeGroups)]),
  );
});

test('axles alike in everything their hand, cutting and axle decide still differ in where they stand', () => {
  const kind = Float64Array.from({ length: chancesIn }, () => 2);
  const own = drawChances(seeded(7));
  const one = ofKind(kind, { hand: 1, relief: 1, backlash: 1 })(own);
  const [film, pinion] = [0, 3]; // as `names` in axle.ts has them
  expect(one[film]).toBe(2);
  expect(one[pinion]).toBe(own[pinion]);
});
