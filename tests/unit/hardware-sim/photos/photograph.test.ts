import { describe, expect, test } from 'vitest';
import { filmLeft } from '../../../../hardware-sim/photos/compound.ts';
import { photograph } from '../../../../hardware-sim/photos/photograph.ts';
import { drawScene } from '../../../../hardware-sim/photos/scene.ts';
import { gapInFilms, markBySight, roughened } from '../../../../hardware-sim/photos/truth.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';

const size = [480, 360] as const;
function taken(seed: number) {
  const random = seeded(seed);
  return photograph(drawScene(random, size), random);
}

describe('a photograph of a painted tooth', () => {
  test('is the same for the same seed and another for another', () => {
    const [a, b, c] = [taken(1), taken(1), taken(2)];
    expect(Buffer.compare(a.photo.data, b.photo.data)).toBe(0);
    expect(a.mark).toEqual(b.mark);
    expect(Buffer.compare(a.photo.data, c.photo.data)).not.toBe(0);
  });

  test('holds the whole flank, and its corners go round it one way', () => {
    for (const seed of [1, 2, 3, 4]) {
      const { corners } = taken(seed);
      for (const [x, y] of corners) {
        expect(x).toBeGreaterThan(0);
        expect(x).toBeLessThan(size[0]);
        expect(y).toBeGreaterThan(0);
        expect(y).toBeLessThan(size[1]);
      }
      const turns = corners.map((b, n) => {
        const [a, c] = [corners[(n + 3) % 4] ?? b, corners[(n + 1) % 4] ?? b];
        return Math.sign((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]));
      });
      expect(Math.abs(turns.reduce((sum, one) => sum + one, 0))).toBe(4);
    }
  });
});

describe('what is true of it', () => {
  test('half the film is gone where the flanks came as near as the film is thick', () => {
    expect(filmLeft(1, 0.5)).toBe(0.5);
    expect(filmLeft(0.7, 0.5)).toBe(0);
    expect(filmLeft(1.3, 0.5)).toBe(1);
  });

  test('the centre is that of the painted shape, counted finely', () => {
    const random = seeded(9);
    const { set, painted, film_mm, film } = drawScene(random, size);
    const rough = roughened(painted, random);
    const mark = markBySight(rough, set.frame, film_mm, film.feather);
    const gap = gapInFilms(rough, film_mm);
    let [area, heelSum, crownSum] = [0, 0, 0];
    for (let i = 0; i < 400; i += 1) {
      const heel = (i + 0.5) / 400 - 0.5;
      for (let j = 0; j < 200; j += 1) {
        const crown = (j + 0.5) / 200 - 0.5;
        if (gap(heel, crown) > 1) continue;
        const cell = set.frame.heightAt(heel * set.frame.faceWidth_mm);
        area += cell;
        heelSum += cell * heel;
        crownSum += cell * crown;
      }
    }
    expect(area).toBeGreaterThan(0);
    // The twin's own count is on a coarse net whose edge cells count in part.
    expect(Math.abs(heelSum / area - mark.heel)).toBeLessThan(0.005);
    expect(Math.abs(crownSum / area - mark.crown)).toBeLessThan(0.008);
  });
});
