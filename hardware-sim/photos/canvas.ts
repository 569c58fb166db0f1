import { dot, minus, unit, type Vector } from '../axle/mesh/vector.ts';
import type { Camera } from './camera.ts';
import { parts, type Patch } from './teeth.ts';

/** What each pixel of the picture looks at. */
export interface Canvas {
  readonly width: number;
  readonly height: number;
  /** Index into `parts` plus 1; 0 where there is no tooth. */
  readonly part: Uint8Array;
  readonly x: Float32Array;
  readonly y: Float32Array;
  /** How squarely the lamp meets the surface, 0…1. */
  readonly lit: Float32Array;
  /** Mirrored light before any oil, 0…1. */
  readonly shine: Float32Array;
  /** 1 ÷ distance, 1/mm; 0 where there is nothing. */
  readonly nearness: Float32Array;
}

export function emptyCanvas(width: number, height: number): Canvas {
  const floats = () => new Float32Array(width * height);
  const part = new Uint8Array(width * height);
  return { width, height, part, x: floats(), y: floats(), lit: floats(), shine: floats(), nearness: floats() };
}

/** A lamp far away. */
interface Lamp {
  readonly from: Vector;
  /** How narrow its mirror image is. */
  readonly gloss: number;
}

/** A corner of a triangle as the rasteriser walks it: picture place, then what is interpolated. */
type Corner = readonly [x: number, y: number, nearness: number, u: number, v: number, lit: number, shine: number];

/** Paints a patch into the canvas where it is nearest. */
export function paintPatch(canvas: Canvas, patch: Patch, camera: Camera, lamp: Lamp): void {
  const part = parts.indexOf(patch.part) + 1;
  const corners = patch.points.map((point, k): Corner => {
    const { at, depth_mm } = camera.see(point);
    const toEye = unit(minus(camera.eye, point));
    const raw = patch.normals[k] as Vector;
    const normal: Vector = dot(raw, toEye) < 0 ? [-raw[0], -raw[1], -raw[2]] : raw;
    const half = unit([toEye[0] + lamp.from[0], toEye[1] + lamp.from[1], toEye[2] + lamp.from[2]]);
    const [u, v] = patch.places[k] as readonly [number, number];
    const lit = Math.max(0, dot(normal, lamp.from));
    return [at[0], at[1], 1 / depth_mm, u, v, lit, Math.max(0, dot(normal, half)) ** lamp.gloss];
  });
  for (let j = 0; j + 1 < patch.up; j += 1) {
    for (let i = 0; i + 1 < patch.across; i += 1) {
      const k = j * patch.across + i;
      const [a, b] = [corners[k] as Corner, corners[k + 1] as Corner];
      const [c, d] = [corners[k + patch.across] as Corner, corners[k + patch.across + 1] as Corner];
      paintTriangle(canvas, part, a, b, d);
      paintTriangle(canvas, part, a, d, c);
    }
  }
}

function paintTriangle(canvas: Canvas, part: number, a: Corner, b: Corner, c: Corner): void {
  const twice = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
  if (twice === 0) return;
  const top = Math.max(0, Math.ceil(Math.min(a[1], b[1], c[1])));
  const bottom = Math.min(canvas.height - 1, Math.floor(Math.max(a[1], b[1], c[1])));
  const left = Math.max(0, Math.ceil(Math.min(a[0], b[0], c[0])));
  const right = Math.min(canvas.width - 1, Math.floor(Math.max(a[0], b[0], c[0])));
  for (let y = top; y <= bottom; y += 1) {
    for (let x = left; x <= right; x += 1) {
      const p = ((x - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (y - a[1])) / twice;
      const q = ((b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1])) / twice;
      // A hair of overlap: two triangles that share an edge must not leave a gap along it.
      if (p < -1e-6 || q < -1e-6 || p + q > 1 + 1e-6) continue;
      const near = a[2] + p * (b[2] - a[2]) + q * (c[2] - a[2]);
      const k = y * canvas.width + x;
      if (near <= (canvas.nearness[k] as number)) continue;
      canvas.nearness[k] = near;
      canvas.part[k] = part;
      canvas.x[k] = a[3] + p * (b[3] - a[3]) + q * (c[3] - a[3]);
      canvas.y[k] = a[4] + p * (b[4] - a[4]) + q * (c[4] - a[4]);
      canvas.lit[k] = a[5] + p * (b[5] - a[5]) + q * (c[5] - a[5]);
      canvas.shine[k] = a[6] + p * (b[6] - a[6]) + q * (c[6] - a[6]);
    }
  }
}
