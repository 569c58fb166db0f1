/**
 * How colours look to people, for tests of the palette. Everything here is from public definitions; the tests
 * that use it name the thresholds.
 */
type Triple = readonly [number, number, number];
type Matrix = readonly [Triple, Triple, Triple];

/** sRGB to linear light (WCAG 2.2, definition of relative luminance, with the 0.04045 of its 2021 correction). */
const linear = (channel: number): number => (channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4);

const channels = (hex: string): Triple =>
  [1, 3, 5].map((at) => linear(Number.parseInt(hex.slice(at, at + 2), 16) / 255)) as unknown as Triple;

const times = (matrix: Matrix, [x, y, z]: Triple): Triple =>
  matrix.map(([a, b, c]) => a * x + b * y + c * z) as unknown as Triple;

const luminance = (hex: string): number => {
  const [red, green, blue] = channels(hex);
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
};

/** Contrast ratio, 1 to 21 (WCAG 2.2, success criteria 1.4.3 and 1.4.11). */
export function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

export type Vision = 'usual' | 'protanopia' | 'deuteranopia' | 'tritanopia';

/**
 * Simulation matrices on linear RGB at full severity: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A
 * physiologically-based model for simulation of color vision deficiency", IEEE TVCG 15 (2009). Written down from
 * memory and compared with the figures as several public programs carry them; the paper itself was not seen.
 * Its authors call the one for tritanopia an approximation.
 */
const simulation: Readonly<Record<Vision, Matrix>> = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** Linear sRGB to XYZ under D65, white point alike (IEC 61966-2-1; from memory). */
const toXyz: Matrix = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
];
const white: Triple = [0.9505, 1, 1.089];

function lab(hex: string, vision: Vision): Triple {
  const seen = times(simulation[vision], channels(hex)).map((c) => Math.min(1, Math.max(0, c))) as unknown as Triple;
  const xyz = times(toXyz, seen);
  const [x, y, z] = xyz.map((value, index) => {
    const share = value / (white[index] ?? 1);
    return share > 216 / 24389 ? Math.cbrt(share) : (share * 24389) / 27 / 116 + 16 / 116;
  }) as [number, number, number];
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** CIE 1976 colour difference of two colours as somebody with this vision sees them; 2 to 3 is just noticed. */
export function difference(a: string, b: string, vision: Vision): number {
  const [first, second] = [lab(a, vision), lab(b, vision)];
  return Math.hypot(...first.map((value, index) => value - (second[index] ?? 0)));
}
