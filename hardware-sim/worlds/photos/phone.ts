import jpeg from 'jpeg-js';
import type { Random } from '../../seeded.ts';
import { ripple } from './ripple.ts';

/** Light on the sensor: three numbers a pixel, 1 being full. */
export interface Sensor {
  readonly width: number;
  readonly height: number;
  readonly light: Float32Array;
}

/** What a phone's lens and program do to it. */
export interface PhoneManner {
  /** Radius of the disc a point becomes, in pixels of a picture 1200 wide; and how far the hand moves meanwhile. */
  readonly blur: readonly [number, number];
  readonly shake: readonly [number, number];
  /** Light lost in the corners. */
  readonly vignette: readonly [number, number];
  readonly noise: readonly [number, number];
  /** How far white balance misses. */
  readonly balance: number;
  /** Bend of the tone curve, sharpening and added colour of its program. */
  readonly curve: number;
  readonly sharpen: number;
  readonly vivid: number;
  readonly quality: readonly [number, number];
  readonly exposure: readonly [number, number];
}

/** Upright, eight bits a channel, opaque. */
export interface Bytes {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** Light to bytes, then through a JPEG file and back, as every photo comes. */
export function developed(sensor: Sensor, manner: PhoneManner, random: Random): Bytes {
  const { width, height, light } = sensor;
  const scale = width / 1200;
  softened(sensor, random.uniform(...manner.blur) * scale, 0);
  softened(sensor, 0, random.uniform(...manner.shake) * scale);
  const [lost, noise] = [random.uniform(...manner.vignette), random.uniform(...manner.noise)];
  const exposure = random.uniform(...manner.exposure) / brightness(sensor);
  const gains = [1 + manner.balance * random.uniform(-1, 1), 1, 1 + manner.balance * random.uniform(-1, 1)];
  const grain = ripple(random, 0.31 * width, 0.29 * height, 3);
  const strip = Float32Array.from({ length: 50_021 }, () => random.normal(0, 1));
  let drop = Math.floor(random.uniform(0, strip.length));
  for (let k = 0; k < width * height; k += 1) {
    const [x, y] = [(k % width) / width - 0.5, Math.floor(k / width) / height - 0.5];
    const corner = 1 - lost * (x * x + y * y) * 2;
    for (let c = 0; c < 3; c += 1) {
      const clean = (light[3 * k + c] ?? 0) * exposure * corner * (gains[c] ?? 1);
      drop = (drop + 1 + (k % 7)) % strip.length;
      light[3 * k + c] =
        clean + noise * (0.12 + Math.sqrt(Math.max(0, clean))) * ((strip[drop] ?? 0) + 0.3 * grain(x, y));
    }
  }
  const bytes = encoded(sensor, manner);
  const file = jpeg.encode(halfColour(bytes), Math.round(random.uniform(...manner.quality))).data;
  const back = jpeg.decode(file, { useTArray: true });
  return { width, height, data: back.data };
}

/** What an exposure meter makes of the picture: the light of its brighter fifth. */
function brightness({ light }: Sensor): number {
  const some: number[] = [];
  for (let k = 0; k < light.length; k += 3 * 97) {
    some.push(Math.max(light[k] ?? 0, light[k + 1] ?? 0, light[k + 2] ?? 0));
  }
  return Math.max(0.02, some.toSorted((a, b) => a - b)[Math.floor(0.8 * some.length)] ?? 1) / 0.42;
}

/** Boxes laid one after another: near enough to a disc, or along x for a hand that moves. */
function softened({ width, height, light }: Sensor, disc: number, moved: number): void {
  const passes: readonly (readonly [number, boolean])[] =
    moved > 0
      ? [[moved, true]]
      : [
          [disc, true],
          [disc, true],
          [disc, false],
          [disc, false],
        ];
  for (const [radius, level] of passes) {
    if (radius < 0.15) continue;
    const [lines, length, next] = level ? [height, width, 3] : [width, height, 3 * width];
    for (let line = 0; line < lines; line += 1) {
      for (let c = 0; c < 3; c += 1) boxed(light, (level ? 3 * line * width : 3 * line) + c, next, length, radius);
    }
  }
}

function boxed(light: Float32Array, start: number, next: number, length: number, radius: number): void {
  const whole = Math.floor(radius);
  const part = radius - whole;
  const pad = whole + 1;
  const line = new Float32Array(length + 2 * pad);
  for (let n = 0; n < line.length; n += 1) {
    const from = n < pad ? 0 : Math.min(length - 1, n - pad);
    line[n] = light[start + from * next] ?? 0;
  }
  let sum = 0;
  for (let n = 1; n < 2 * pad; n += 1) sum += line[n] ?? 0;
  for (let n = 0; n < length; n += 1) {
    const [before, after] = [line[n] ?? 0, line[n + 2 * pad] ?? 0];
    light[start + n * next] = (sum + part * (before + after)) / (2 * radius + 1);
    sum += after - (line[n + 1] ?? 0);
  }
}

const fine = 8192;
/** The sRGB curve (IEC 61966-2-1, from memory) and the bend that the phone's program gives it, tabulated. */
const curveOf = (bend: number): Float32Array =>
  Float32Array.from({ length: fine + 1 }, (_, n) => {
    const x = n / fine;
    const coded = x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055;
    return coded + bend * (coded * coded * (3 - 2 * coded) - coded);
  });

/** Bytes after the program's own curve, colour and sharpening. */
function encoded({ width, height, light }: Sensor, manner: PhoneManner): Bytes {
  const data = new Uint8Array(4 * width * height).fill(255);
  const curve = curveOf(manner.curve);
  const seen = new Float32Array(light.length);
  for (let k = 0; k < seen.length; k += 1) {
    seen[k] = curve[Math.min(fine, Math.max(0, Math.round((light[k] ?? 0) * fine)))] ?? 0;
  }
  const end = 3 * width * height - 1;
  const [aside, above] = [6, 6 * width];
  for (let k = 0; k < width * height; k += 1) {
    const grey = ((seen[3 * k] ?? 0) + (seen[3 * k + 1] ?? 0) + (seen[3 * k + 2] ?? 0)) / 3;
    for (let at = 3 * k; at < 3 * k + 3; at += 1) {
      const own = seen[at] ?? 0;
      const level = (seen[Math.max(0, at - aside)] ?? 0) + (seen[Math.min(end, at + aside)] ?? 0);
      const upright = (seen[Math.max(0, at - above)] ?? 0) + (seen[Math.min(end, at + above)] ?? 0);
      const sharp = own + manner.sharpen * (own - (level + upright) / 4) + manner.vivid * (own - grey);
      data[at + k] = Math.round(255 * Math.min(1, Math.max(0, sharp)));
    }
  }
  return { width, height, data };
}

/** Colour kept for two by two pixels together, as phones do (weights of BT.601, from memory). */
function halfColour({ width, height, data }: Bytes): Bytes {
  const out = Uint8Array.from(data);
  const at = (k: number) => data[k] ?? 0;
  const grey = (k: number) => 0.299 * at(k) + 0.587 * at(k + 1) + 0.114 * at(k + 2);
  for (let y = 0; y + 1 < height; y += 2) {
    for (let x = 0; x + 1 < width; x += 2) {
      const a = 4 * (y * width + x);
      const [b, c, d] = [a + 4, a + 4 * width, a + 4 * width + 4];
      const [greyA, greyB, greyC, greyD] = [grey(a), grey(b), grey(c), grey(d)];
      const mean = (greyA + greyB + greyC + greyD) / 4;
      for (let n = 0; n < 3; n += 1) {
        const colour = (at(a + n) + at(b + n) + at(c + n) + at(d + n)) / 4 - mean;
        out[a + n] = byte(greyA + colour);
        out[b + n] = byte(greyB + colour);
        out[c + n] = byte(greyC + colour);
        out[d + n] = byte(greyD + colour);
      }
    }
  }
  return { width, height, data: out };
}

const byte = (value: number): number => Math.round(Math.min(255, Math.max(0, value)));
