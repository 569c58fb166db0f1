import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flanksLayout, flanksScene } from '../../../../../src/shared/presentation/drawing/flanks.ts';
import {
  flankGeometry,
  heightAt,
  patch,
  placeAt,
  placeOnFlank,
  pointAt,
} from '../../../../../src/shared/presentation/drawing/flankShape.ts';
import type { PathElement, Scene } from '../../../../../src/shared/presentation/drawing/scene.ts';
import { flat, pathPoints, placesOf, textSaying, wordsOf } from '../../../../support/drawings/look.ts';
import { centredMark, firstTrialFlanks, usedSetFlanks } from '../../../../support/drawings/samples.ts';

const place = { centre: { x: 200, y: 120 }, length: 300, height: 100 };
const fraction = fc.double({ min: -0.5, max: 0.5, noNaN: true });
const geometry = fc
  .tuple(
    fc.constantFrom('convex' as const, 'concave' as const),
    fc.constantFrom('face-milled' as const, 'face-hobbed' as const, 'not-known' as const),
    fc.constantFrom('toe-left' as const, 'toe-right' as const),
  )
  .map(([flank, cut, turned]) => flankGeometry(flank, cut, turned, place));

const paths = (scene: Scene, test: (path: PathElement) => boolean): readonly PathElement[] =>
  flat(scene.elements).filter((element): element is PathElement => element.kind === 'path' && test(element));

/** Pairs of words that lie over each other; a capital of Inter is 0.73 em high, a letter some 0.55 em wide. */
function wordsOver(scene: Scene): readonly string[] {
  const boxes = flat(scene.elements).flatMap((element) => {
    if (element.kind !== 'text') return [];
    const { x, y, size, text: words, anchor } = element;
    const wide = words.length * size * 0.52;
    const left = { start: x, middle: x - wide / 2, end: x - wide }[anchor];
    return [{ words, left, right: left + wide, top: y - size * 0.73, bottom: y }];
  });
  return boxes.flatMap((one, index) =>
    boxes
      .slice(index + 1)
      .filter(
        (other) => one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom,
      )
      .map((other) => `${one.words} over ${other.words}`),
  );
}

describe('a place on the drawn flank', () => {
  it('comes back from the picture as it went in', () => {
    fc.assert(
      fc.property(geometry, fraction, fraction, (drawn, heel, crown) => {
        const back = placeAt(drawn, pointAt(drawn, { heel, crown }));
        expect(back.heel).toBeCloseTo(heel, 9);
        expect(back.crown).toBeCloseTo(crown, 9);
      }),
      { seed: 21 },
    );
  });

  it('never leaves the flank when it is dragged', () => {
    const anywhere = fc.integer({ min: -2000, max: 2000 });
    fc.assert(
      fc.property(geometry, anywhere, anywhere, (drawn, x, y) => {
        const { heel, crown } = placeOnFlank(drawn, { x, y });
        expect(Math.abs(heel)).toBeLessThanOrEqual(0.5);
        expect(Math.abs(crown)).toBeLessThanOrEqual(0.5);
      }),
      { seed: 22 },
    );
  });

  it('has the crown above the root and the heel on the side it is turned to', () => {
    fc.assert(
      fc.property(geometry, fraction, (drawn, heel) => {
        expect(pointAt(drawn, { heel, crown: 0.5 }).y).toBeLessThan(pointAt(drawn, { heel, crown: -0.5 }).y);
        const run = pointAt(drawn, { heel: 0.5, crown: 0 }).x - pointAt(drawn, { heel: -0.5, crown: 0 }).x;
        expect(Math.sign(run)).toBe(drawn.turned === 'toe-left' ? 1 : -1);
      }),
      { seed: 23 },
    );
  });

  it('is taller at the heel on a face-milled tooth and level on a face-hobbed one', () => {
    const milled = flankGeometry('convex', 'face-milled', 'toe-left', place);
    const hobbed = flankGeometry('convex', 'face-hobbed', 'toe-left', place);
    expect(heightAt(milled, 0.5) / heightAt(milled, -0.5)).toBeGreaterThan(1.2);
    expect(heightAt(hobbed, 0.5)).toBe(heightAt(hobbed, -0.5));
    expect(heightAt(milled, 0)).toBe(100);
  });
});

describe('the flanks', () => {
  it('names drive, coast, their shape and all four edges of both', () => {
    const words = wordsOf(flanksScene(usedSetFlanks));
    for (const edge of ['toe', 'heel', 'crown', 'root']) expect(words.filter((word) => word === edge)).toHaveLength(2);
    expect(words).toEqual(expect.arrayContaining(['Drive', 'concave', 'Coast', 'convex']));
  });

  it('puts toe and heel on the sides they are turned to', () => {
    const left = textSaying(flanksScene(firstTrialFlanks), 'toe');
    const right = textSaying(flanksScene({ ...firstTrialFlanks, turned: 'toe-right' }), 'toe');
    expect(left?.x).toBeLessThan(100);
    expect(right?.x).toBeGreaterThan(400);
  });

  it('draws each kind of mark in its own manner', () => {
    const scene = flanksScene(firstTrialFlanks);
    expect(paths(scene, ({ fill }) => fill === 'mark').length).toBeGreaterThan(10);
    expect(paths(scene, ({ stroke, dash }) => stroke === 'plan' && dash !== undefined)).toHaveLength(2);
    expect(paths(scene, ({ stroke }) => stroke === 'target')).toHaveLength(2);
    expect(paths(flanksScene(usedSetFlanks), ({ stroke }) => stroke === 'mark-found')).toHaveLength(2);
  });

  it('draws the hard line along the edges that have one, and only along those', () => {
    const lines = paths(flanksScene(firstTrialFlanks), ({ stroke }) => stroke === 'mark');
    expect(lines).toHaveLength(2);
    const { drive } = flanksLayout(firstTrialFlanks);
    const [toe = [], root = []] = lines.map(({ d }) => pathPoints(d).map((point) => placeAt(drive, point)));
    for (const { heel } of toe) expect(heel).toBeCloseTo(-0.5, 3);
    for (const { crown } of root) expect(crown).toBeCloseTo(-0.5, 2);
  });

  it('puts the cross at the centre, as long as the place is unsure', () => {
    const scene = flanksScene({ ...usedSetFlanks, drive: { flank: 'convex', seen: centredMark } });
    const [along] = paths(scene, ({ stroke }) => stroke === 'surface');
    const { drive } = flanksLayout({ ...usedSetFlanks, drive: { flank: 'convex' } });
    const [from, to] = pathPoints(along?.d ?? '').map((point) => placeAt(drive, point));
    expect(((from?.heel ?? 0) + (to?.heel ?? 0)) / 2).toBeCloseTo(-0.08, 3);
    expect((to?.heel ?? 0) - (from?.heel ?? 0)).toBeCloseTo(0.1, 3);
    expect(along?.dash).toBeUndefined();
  });

  it('dots the cross where an edge makes the centre a bound', () => {
    const arms = paths(flanksScene(firstTrialFlanks), ({ stroke }) => stroke === 'surface');
    expect(arms.every(({ dash }) => dash !== undefined)).toBe(true);
  });

  it('says in words where the marks lie', () => {
    const { description } = flanksScene(firstTrialFlanks);
    expect(description).toContain('Drive flank (convex): mark centre 30 % towards the toe, 28 % towards the root');
    expect(description).toContain('hard at the toe, hard at the root');
    expect(description).toContain('fading out at the heel');
    expect(flanksScene(usedSetFlanks).description).toContain('Coast flank (convex): no mark entered');
  });

  it('keeps everything inside its box', () => {
    for (const input of [firstTrialFlanks, usedSetFlanks]) {
      const { width, height } = input.size;
      for (const { x, y } of placesOf(flanksScene(input))) {
        expect(x > 0 && x < width && y > 0 && y < height).toBe(true);
      }
    }
  });

  it('makes the flanks larger where words may give way, and keeps every word in the box and off the others', () => {
    const size = fc.record({
      width: fc.integer({ min: 330, max: 1400 }),
      height: fc.integer({ min: 190, max: 700 }),
      text: fc.constantFrom(14, 17.5),
    });
    fc.assert(
      fc.property(size, fc.constantFrom('toe-left' as const, 'toe-right' as const), (room, turned) => {
        const usual = { ...firstTrialFlanks, size: room, turned };
        const gave = { ...usual, wordsGiveWay: true };
        expect(flanksLayout(gave).drive.length).toBeGreaterThanOrEqual(flanksLayout(usual).drive.length);
        const scene = flanksScene(gave);
        for (const { x, y } of placesOf(scene))
          expect(x >= 0 && x <= room.width && y >= 0 && y <= room.height, `${x} ${y}`).toBe(true);
        expect(wordsOver(scene)).toEqual([]);
      }),
      { seed: 31, numRuns: 400 },
    );
  });

  it('follows the bow of the flank with the target zone', () => {
    const bowed = flankGeometry('convex', 'face-hobbed', 'toe-left', place);
    const lower = patch(bowed, [-0.5, 0.5], [0, 0.1]).slice(0, 25);
    expect(lower[12]?.y).toBeGreaterThan(lower[0]?.y ?? 0);
  });
});
