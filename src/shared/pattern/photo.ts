import { z } from 'zod';

/** An upright photo: eight bits a channel, red, green, blue, alpha, row by row from the upper left. */
export interface Photo {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array | Uint8ClampedArray;
}

/** Pixels to the right and down from the photo's upper left corner. */
export type Pixel = readonly [x: number, y: number];

const pixelSchema = z.tuple([z.number(), z.number()]).readonly();

/** The four tapped corners of the flank: toe-root, toe-crown, heel-crown, heel-root. Either turn. */
export type FlankCorners = readonly [Pixel, Pixel, Pixel, Pixel];

export const flankCornersSchema = z.tuple([pixelSchema, pixelSchema, pixelSchema, pixelSchema]).readonly();

/** A place on the flank from toe (0) to heel (1) and from root (0) to crown (1). */
export type FlankPlace = readonly [along: number, up: number];
