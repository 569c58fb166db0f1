/** A colour as light: red, green and blue of sRGB primaries, linear, 0…1. */
type Light = readonly [red: number, green: number, blue: number];

/** A colour as it is seen: CIE L*a*b* 1976 under D65. Equal steps look about equally different. */
type Lab = readonly [L: number, a: number, b: number];

/** Light of each of the 256 values of a channel: the sRGB curve (IEC 61966-2-1). */
export const lightOfByte: Float32Array = Float32Array.from({ length: 256 }, (_, byte) => {
  const share = byte / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
});

/** sRGB primaries to CIE XYZ (IEC 61966-2-1), each row divided by the white D65, so that white is 1, 1, 1. */
const toWhite = [
  [0.4124 / 0.9505, 0.3576 / 0.9505, 0.1805 / 0.9505],
  [0.2126, 0.7152, 0.0722],
  [0.0193 / 1.089, 0.1192 / 1.089, 0.9505 / 1.089],
] as const;

/** (6/29)³ and the straight line below it, as CIE 15 defines them. */
const dark = (6 / 29) ** 3;
const steepness = (29 / 6) ** 2 / 3;
const seen = (share: number): number => (share > dark ? Math.cbrt(share) : steepness * share + 4 / 29);

const response = (row: Light, red: number, green: number, blue: number): number =>
  seen(row[0] * red + row[1] * green + row[2] * blue);

/** What linear light looks like. */
export function labOf(red: number, green: number, blue: number): Lab {
  const [x, y, z] = [
    response(toWhite[0], red, green, blue),
    response(toWhite[1], red, green, blue),
    response(toWhite[2], red, green, blue),
  ];
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Relative luminance, 0…1. */
export const luminance = (red: number, green: number, blue: number): number =>
  toWhite[1][0] * red + toWhite[1][1] * green + toWhite[1][2] * blue;
