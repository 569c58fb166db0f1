import jpeg from 'jpeg-js';
import { describe, expect, test } from 'vitest';
import { jpegSizeOf, orientationOf, withoutCameraData } from '../../../../../src/shared/axle/mark/jpegSegments.ts';
import { upright } from '../../../../../src/shared/axle/mark/upright.ts';

const picture = jpeg.encode({ width: 8, height: 4, data: new Uint8Array(8 * 4 * 4).fill(128) }, 90).data;

/** A camera's Exif: orientation and a note that looks like a place, little-endian. */
function asTaken(orientation: number, place: string): Uint8Array {
  const note = Buffer.from(place, 'latin1');
  const tiff = [
    0x49,
    0x49,
    42,
    0,
    8,
    0,
    0,
    0,
    1,
    0,
    0x12,
    0x01,
    3,
    0,
    1,
    0,
    0,
    0,
    orientation,
    0,
    0,
    0,
    0,
    0,
    0,
    0,
    ...note,
  ];
  const body = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff];
  return Uint8Array.from([...picture.subarray(0, 2), 0xff, 0xe1, 0, body.length + 2, ...body, ...picture.subarray(2)]);
}
const text = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');

describe('what a camera wrote', () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])('orientation %i is read and kept, the place is gone', (orientation) => {
    const file = asTaken(orientation, 'GPS 47.1 N 8.2 E');
    expect(text(file)).toContain('GPS 47.1');
    const stripped = withoutCameraData(file);
    expect(text(stripped)).not.toContain('GPS');
    expect(orientationOf(file)).toBe(orientation);
    expect(orientationOf(stripped)).toBe(orientation);
    expect(jpeg.decode(stripped, { useTArray: true }).width).toBe(8);
  });

  test('nothing written is upright, and nonsense is too', () => {
    expect(orientationOf(picture)).toBe(1);
    expect(orientationOf(asTaken(99, ''))).toBe(1);
    expect(orientationOf(Uint8Array.of(1, 2, 3))).toBe(1);
    expect(orientationOf(asTaken(6, '').subarray(0, 30))).toBe(1);
  });
});

describe('turning upright', () => {
  /** Red in the file's upper left pixel, green right of it. */
  const data = new Uint8Array(3 * 2 * 4);
  data.set([255, 0, 0, 255], 0);
  data.set([0, 255, 0, 255], 4);
  const photo = { width: 3, height: 2, data };
  const find = (orientation: Parameters<typeof upright>[1], colour: number): readonly [number, number] => {
    const turned = upright(photo, orientation);
    const k = Array.from({ length: 6 }, (_, n) => n).findIndex((n) => turned.data[4 * n + colour] === 255);
    return [k % turned.width, Math.floor(k / turned.width)];
  };

  // Exif 2.3, table of orientations: where row 0 and column 0 of the file lie in the upright picture (from memory).
  test.each([
    [1, [0, 0], [1, 0]],
    [2, [2, 0], [1, 0]],
    [3, [2, 1], [1, 1]],
    [4, [0, 1], [1, 1]],
    [5, [0, 0], [0, 1]],
    [6, [1, 0], [1, 1]],
    [7, [1, 2], [1, 1]],
    [8, [0, 2], [0, 1]],
  ] as const)('orientation %i', (orientation, red, green) => {
    expect(find(orientation, 0)).toEqual(red);
    expect(find(orientation, 1)).toEqual(green);
  });
});

describe('the size of a JPEG', () => {
  test.each([
    [1, 1],
    [640, 480],
    [300, 1025],
  ])('%i × %i, as it lies in the file, with and without what a camera wrote', (width, height) => {
    const data = new Uint8Array(4 * width * height).fill(90);
    const file = Uint8Array.from(jpeg.encode({ width, height, data }, 80).data);
    expect(jpegSizeOf(file)).toEqual({ width, height });
    expect(jpegSizeOf(withoutCameraData(file))).toEqual({ width, height });
    // Broken off anywhere it has none: half a photo is no photo.
    for (const share of [0.1, 0.5, 0.99])
      expect(jpegSizeOf(file.subarray(0, Math.floor(file.length * share)))).toBeUndefined();
  });

  test('there is none in something else', () => {
    expect(jpegSizeOf(new Uint8Array())).toBeUndefined();
    expect(jpegSizeOf(Buffer.from('not a picture at all'))).toBeUndefined();
  });
});
