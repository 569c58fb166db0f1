import { describe, expect, test } from 'vitest';
import { photograph } from '../../../../../hardware-sim/photos/photograph.ts';
import { drawScene, type Spoiling } from '../../../../../hardware-sim/photos/scene.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { type BrushTouch, corrected, handU95, outlined } from '../../../../../src/shared/axle/mark/brush.ts';
import { readPattern } from '../../../../../src/shared/axle/mark/readPattern.ts';

function taken(seed: number, spoilt?: Spoiling) {
  const random = seeded(seed);
  return photograph(drawScene(random, [800, 600], spoilt), random);
}

const touch = (along: number, up: number, to: BrushTouch['to'] = 'mark', radius = 0.035): BrushTouch => ({
  along,
  up,
  radius,
  to,
});
/** A ring of touches about a place. */
const ring = (along: number, up: number): readonly BrushTouch[] =>
  Array.from({ length: 90 }, (_, n) => {
    const angle = (2 * Math.PI * n) / 90;
    return touch(along + 0.2 * Math.cos(angle), up + 0.22 * Math.sin(angle), 'mark', 0.012);
  });

function valueOf<Value>(result: { ok: true; value: Value } | { ok: false; problem: { sentence: string } }): Value {
  if (!result.ok) throw new Error(result.problem.sentence);
  return result.value;
}

describe('a mark outlined by hand', () => {
  test.each(['no-mark', 'out-of-focus', 'glare', 'smeared'] as const)(
    'is taken where nothing is read: %s',
    (spoilt) => {
      const picture = taken(4, spoilt);
      expect(readPattern(picture.photo, picture.tapped).ok).toBe(false);
      const { mark, warnings } = valueOf(outlined(picture.photo, picture.tapped, ring(0.6, 0.45)));
      expect(Math.abs(mark.heel - 0.1)).toBeLessThan(0.03);
      expect(Math.abs(mark.crown + 0.05)).toBeLessThan(0.03);
      // The ring is filled: its area and not that of its line.
      expect(mark.area).toBeGreaterThan(0.9 * Math.PI * 0.2 * 0.22);
      expect(mark.U95?.heel).toBeGreaterThan(handU95.heel);
      expect(mark.U95?.crown).toBeGreaterThan(handU95.crown);
      expect(warnings[0]).toContain('Outlined by hand');
    },
  );

  test('begins empty, and says so', () => {
    const picture = taken(4);
    const empty = outlined(picture.photo, picture.tapped, []);
    expect(empty.ok ? undefined : empty.problem.kind).toBe('not-outlined');
  });

  test('owes nothing to what a machine would read there', () => {
    const picture = taken(4);
    const { mark } = valueOf(outlined(picture.photo, picture.tapped, [touch(0.2, 0.5, 'mark', 0.06)]));
    expect(mark.heel).toBeLessThan(-0.25);
    expect(mark.area).toBeLessThan(0.1);
  });
});

describe('a mark changed by hand', () => {
  const picture = taken(3);
  const reading = valueOf(readPattern(picture.photo, picture.tapped));

  test('is less sure the more was changed, and says so', () => {
    const little = valueOf(corrected(reading, [touch(0.5 + reading.mark.heel, 0.5 + reading.mark.crown, 'compound')]));
    const half = valueOf(corrected(reading, [touch(0.5 + reading.mark.heel - 0.3, 0.5, 'compound', 0.3)]));
    const own = reading.mark.U95?.heel ?? 9;
    expect(little.mark.U95?.heel ?? 0).toBeGreaterThan(own);
    expect(half.mark.U95?.heel ?? 0).toBeGreaterThan(little.mark.U95?.heel ?? 9);
    // It covers what was read before.
    expect(half.mark.U95?.heel ?? 0).toBeGreaterThan(Math.abs(half.mark.heel - reading.mark.heel));
    expect(half.warnings[0]).toContain('Changed by hand');
  });

  test('by a touch that changes nothing is the same mark', () => {
    expect(valueOf(corrected(reading, [touch(0.02, 0.02, 'compound', 0.005)])).mark).toEqual(reading.mark);
  });
});
