/** An upright photo: eight bits a channel, red, green, blue, alpha, row by row from the upper left. */
export interface Photo {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array | Uint8ClampedArray;
}

/** Pixels to the right and down from the photo's upper left corner. */
export type Pixel = readonly [x: number, y: number];

/** The four tapped corners of the flank: toe-root, toe-crown, heel-crown, heel-root. Either turn. */
export type FlankCorners = readonly [Pixel, Pixel, Pixel, Pixel];

/** Longest side of a stored photo: about twice the pixels along a flank that its reading can use. */
export const longestSide_px = 2048;

/** More than this is no photo that was shrunk by one of our screens. */
export const largestPhoto_bytes = 2_500_000;
