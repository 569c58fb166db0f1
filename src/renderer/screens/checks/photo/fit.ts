import type { Pixel } from '../../../../shared/axle/mark/photo.ts';

export interface Extent {
  readonly width: number;
  readonly height: number;
}

/** A photo laid into the room there is, as large as it goes: the way between its pixels and the screen's. */
export interface PhotoFit {
  /** Screen pixels for each of the photo's. */
  readonly scale: number;
  readonly left: number;
  readonly top: number;
  readonly onScreen: (pixel: Pixel) => Pixel;
  /** The pixel under a place on the screen; beside the photo, the nearest one in it. */
  readonly inPhoto: (place: Pixel) => Pixel;
}

export function fitIn(size: Extent, space: Extent): PhotoFit {
  const scale = Math.min(space.width / size.width, space.height / size.height);
  const [left, top] = [(space.width - size.width * scale) / 2, (space.height - size.height * scale) / 2];
  return {
    scale,
    left,
    top,
    onScreen: ([x, y]) => [left + x * scale, top + y * scale],
    inPhoto: ([x, y]) => [
      Math.min(size.width - 1, Math.max(0, (x - left) / scale)),
      Math.min(size.height - 1, Math.max(0, (y - top) / scale)),
    ],
  };
}
