import { describe, expect, test } from 'vitest';
import { mapFlank } from '../../../../../src/shared/axle/mark/flankMap.ts';
import { lightOfByte } from '../../../../../src/shared/axle/mark/labColour.ts';
import type { Photo } from '../../../../../src/shared/axle/mark/photo.ts';
import { straighten } from '../../../../../src/shared/axle/mark/straighten.ts';

function photoOf(
  width: number,
  height: number,
  colour: (x: number, y: number) => readonly [number, number, number],
): Photo {
  const data = new Uint8Array(4 * width * height).fill(255);
  for (let k = 0; k < width * height; k += 1) data.set(colour(k % width, Math.floor(k / width)), 4 * k);
  return { width, height, data };
}

function rasterOf(photo: Photo, size = { columns: 20, rows: 10 }) {
  const map = mapFlank([
    [10, 89],
    [10, 10],
    [189, 10],
    [189, 89],
  ]);
  if (!map.ok) throw new Error(map.problem.sentence);
  return straighten(photo, map.value, { ...size, low: 0, high: 1, samples: 4 });
}

describe('straightening', () => {
  test('lays the toe left and the root down', () => {
    const raster = rasterOf(photoOf(200, 100, (x, y) => [x < 100 ? 200 : 0, y < 50 ? 200 : 0, 0]));
    const cell = (column: number, row: number) => row * raster.columns + column;
    expect(raster.red[cell(2, 5)]).toBeCloseTo(lightOfByte[200] ?? 0, 5);
    expect(raster.red[cell(17, 5)]).toBe(0);
    expect(raster.green[cell(10, 8)]).toBeCloseTo(lightOfByte[200] ?? 0, 5);
    expect(raster.green[cell(10, 1)]).toBe(0);
  });

  test('averages light, not bytes: a fine check of black and white is as light as half the white', () => {
    const raster = rasterOf(
      photoOf(200, 100, (x) => (Math.floor(x / 2) % 2 === 0 ? [250, 250, 250] : [0, 0, 0])),
      {
        columns: 8,
        rows: 4,
      },
    );
    const mean = raster.red.reduce((sum, one) => sum + one, 0) / raster.red.length;
    expect(mean / (lightOfByte[250] ?? 1)).toBeGreaterThan(0.4);
    expect(mean / (lightOfByte[250] ?? 1)).toBeLessThan(0.6);
  });

  test('knows where the photo is burnt out and where it ends', () => {
    const raster = rasterOf(photoOf(150, 100, (x) => (x < 60 ? [255, 255, 255] : [120, 90, 30])));
    expect(raster.blind[5 * 20 + 1]).toBe(1);
    expect(raster.blind[5 * 20 + 10]).toBe(0);
    expect(raster.blind[5 * 20 + 18]).toBe(1);
  });
});
