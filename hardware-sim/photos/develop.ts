import type { Random } from '../seeded.ts';

/** Light on the sensor, linear, three values a pixel. */
export interface Exposure {
  readonly width: number;
  readonly height: number;
  readonly light: Float32Array;
}

/** What the camera makes of the light. */
export interface Development {
  /** Standard deviation of the blur, pixels. */
  readonly blur_px: number;
  /** Gains of red, green and blue: the white balance that was not quite met. */
  readonly gains: readonly [number, number, number];
  /** Noise of the light itself and of the reading, as shares of full scale. */
  readonly shotNoise: number;
  readonly readNoise: number;
}

/** An upright photo, 8 bits a channel, red green blue opaque. */
export interface Photo {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** Blurs, adds noise, and writes eight bits. */
export function develop(exposure: Exposure, how: Development, random: Random): Photo {
  const { width, height, light } = exposure;
  if (how.blur_px > 0) blur(exposure, how.blur_px);
  const chance = grain(random);
  const data = new Uint8Array(width * height * 4).fill(255);
  for (let k = 0; k < width * height; k += 1) {
    for (let c = 0; c < 3; c += 1) {
      const clean = (light[3 * k + c] as number) * (how.gains[c] as number);
      const noise = Math.sqrt(how.shotNoise ** 2 * Math.max(0, clean) + how.readNoise ** 2) * chance();
      data[4 * k + c] = encoded(clean + noise);
    }
  }
  return { width, height, data };
}

/** Chance cut off a long strip of normal numbers: drawing one for each of 36 million values would take minutes. */
function grain(random: Random): () => number {
  const strip = Float32Array.from({ length: 65_521 }, () => random.normal(0, 1));
  let at = Math.floor(random.uniform(0, strip.length));
  let step = 1;
  return () => {
    at += step;
    if (at >= strip.length) {
      at -= strip.length;
      step = (step % 977) + 1;
    }
    return strip[at] as number;
  };
}

/** The sRGB curve (IEC 61966-2-1; constants from memory), tabulated. */
const curve = Uint8Array.from({ length: 4097 }, (_, n) => {
  const x = n / 4096;
  return Math.round(255 * (x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055));
});
const encoded = (light: number): number => curve[Math.min(4096, Math.max(0, Math.round(light * 4096)))] as number;

function blur({ width, height, light }: Exposure, sigma: number): void {
  const reach = Math.max(1, Math.ceil(2.5 * sigma));
  const weights = Array.from({ length: 2 * reach + 1 }, (_, n) => Math.exp(-((n - reach) ** 2) / (2 * sigma ** 2)));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const kernel = Float32Array.from(weights, (weight) => weight / whole);
  const line = new Float32Array(3 * Math.max(width, height));
  for (let y = 0; y < height; y += 1) blurLine(light, 3 * y * width, 3, width, kernel, line);
  for (let x = 0; x < width; x += 1) blurLine(light, 3 * x, 3 * width, height, kernel, line);
}

function blurLine(
  light: Float32Array,
  start: number,
  stride: number,
  count: number,
  kernel: Float32Array,
  line: Float32Array,
): void {
  const reach = (kernel.length - 1) / 2;
  for (let i = 0; i < count; i += 1) {
    for (let c = 0; c < 3; c += 1) line[3 * i + c] = light[start + i * stride + c] as number;
  }
  for (let i = 0; i < count; i += 1) {
    let [r, g, b] = [0, 0, 0];
    for (let n = -reach; n <= reach; n += 1) {
      const from = 3 * Math.min(count - 1, Math.max(0, i + n));
      const weight = kernel[n + reach] as number;
      r += weight * (line[from] as number);
      g += weight * (line[from + 1] as number);
      b += weight * (line[from + 2] as number);
    }
    light[start + i * stride] = r;
    light[start + i * stride + 1] = g;
    light[start + i * stride + 2] = b;
  }
}

/** Phones keep colour at half the resolution: colour differences averaged over two by two pixels (BT.601, from memory). */
export function halveColour({ width, height, data }: Photo): void {
  const luma = (k: number) => 0.299 * at(k) + 0.587 * at(k + 1) + 0.114 * at(k + 2);
  const at = (k: number) => data[k] as number;
  const put = (k: number, bright: number, red: number, blue: number): void => {
    data[k] = byte(bright + red);
    data[k + 1] = byte(bright - (0.299 * red + 0.114 * blue) / 0.587);
    data[k + 2] = byte(bright + blue);
  };
  for (let y = 0; y + 1 < height; y += 2) {
    for (let x = 0; x + 1 < width; x += 2) {
      const a = 4 * (y * width + x);
      const [b, c, d] = [a + 4, a + 4 * width, a + 4 * width + 4];
      const [la, lb, lc, ld] = [luma(a), luma(b), luma(c), luma(d)];
      const all = la + lb + lc + ld;
      const red = (at(a) + at(b) + at(c) + at(d) - all) / 4;
      const blue = (at(a + 2) + at(b + 2) + at(c + 2) + at(d + 2) - all) / 4;
      put(a, la, red, blue);
      put(b, lb, red, blue);
      put(c, lc, red, blue);
      put(d, ld, red, blue);
    }
  }
}

const byte = (value: number): number => Math.min(255, Math.max(0, Math.round(value)));
