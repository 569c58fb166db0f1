import type { Orientation } from './jpegSegments.ts';
import type { Photo } from './photo.ts';
import { noCase } from '../../basics/noCase.ts';

/** Turns a picture as it lies in its file into the upright photo in which corners are tapped. */
export function upright(photo: Photo, orientation: Orientation): Photo {
  if (orientation === 1) return photo;
  const turned = orientation >= 5;
  const { width: from, height: down } = photo;
  const [width, height] = turned ? [down, from] : [from, down];
  const data = new Uint8Array(photo.data.length);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const [i, j] = sourceOf(orientation, x, y, from, down);
      const source = 4 * (j * from + i);
      data.set(photo.data.subarray(source, source + 4), 4 * (y * width + x));
    }
  }
  return { width, height, data };
}

/** Where in the file a pixel of the upright photo lies. */
function sourceOf(
  orientation: Orientation,
  x: number,
  y: number,
  width: number,
  height: number,
): readonly [number, number] {
  const [right, bottom] = [width - 1, height - 1];
  switch (orientation) {
    case 1:
      return [x, y];
    case 2:
      return [right - x, y];
    case 3:
      return [right - x, bottom - y];
    case 4:
      return [x, bottom - y];
    case 5:
      return [y, x];
    case 6:
      return [y, bottom - x];
    case 7:
      return [right - y, bottom - x];
    case 8:
      return [right - y, x];
    default:
      throw noCase(orientation);
  }
}
