import jpeg from 'jpeg-js';
import type { Mark } from '../axle/assembled.ts';
import { along, cross, dot, minus, plus, unit, type Vector } from '../axle/mesh/vector.ts';
import type { Random } from '../seeded.ts';
import { setUpCamera, type Camera, type Pixel } from './camera.ts';
import { emptyCanvas, paintPatch, type Canvas } from './canvas.ts';
import { paintwork, type GapInFilms } from './compound.ts';
import { develop, halveColour, type Exposure, type Photo } from './develop.ts';
import type { Scene } from './scene.ts';
import { layered } from './speckle.ts';
import { flankPoints, parts, toothPatches, type Part } from './teeth.ts';
import { gapInFilms, markBySight, roughened } from './truth.ts';

/** A photo of a painted tooth, and what is true of it. */
export interface Photograph {
  readonly photo: Photo;
  /** Toe-root, toe-crown, heel-crown, heel-root, as they lie in the picture. */
  readonly corners: Corners;
  /** The same as a hand taps them. */
  readonly tapped: Corners;
  /** Middles of the four edges: toe, heel, crown, root. */
  readonly middles: Corners;
  readonly mark: Mark;
  /** Height of the visible flank at the toe over that at the heel, and face width over the height in the middle. */
  readonly shape: { readonly toeOverHeel: number; readonly faceOverHeight: number };
}
type Corners = readonly [Pixel, Pixel, Pixel, Pixel];

/** Takes the photo, without a file's losses. */
export function photograph(drawn: Scene, random: Random): Photograph {
  const scene: Scene = { ...drawn, painted: roughened(drawn.painted, random) };
  const { set, flank } = scene;
  const surface = flankPoints(set, flank, 0);
  const { camera, canvas } = pictureOf(scene, surface);
  const exposure = expose(scene, canvas, random);
  const see = (heel: number, crown: number): Pixel => camera.see(surface(heel, crown)).at;
  const corners = cornersOf(camera, surface);
  const hand = scene.hand * scene.width;
  const tap = ([x, y]: Pixel): Pixel => [x + random.normal(0, hand), y + random.normal(0, hand)];
  return {
    photo: develop(exposure, scene.development, random),
    corners,
    tapped: [tap(corners[0]), tap(corners[1]), tap(corners[2]), tap(corners[3])],
    middles: [see(-0.5, 0), see(0.5, 0), see(0, 0.5), see(0, -0.5)],
    mark: markBySight(scene.painted, set.frame, scene.film_mm, scene.film.feather),
    shape: {
      toeOverHeel: set.frame.heightAt(-set.frame.faceWidth_mm / 2) / set.frame.heightAt(set.frame.faceWidth_mm / 2),
      faceOverHeight: set.frame.faceWidth_mm / set.frame.height_mm,
    },
  };
}

type Surface = (heel: number, crown: number) => Vector;

const cornersOf = (camera: Camera, surface: Surface): Corners => [
  camera.see(surface(-0.5, -0.5)).at,
  camera.see(surface(-0.5, 0.5)).at,
  camera.see(surface(0.5, 0.5)).at,
  camera.see(surface(0.5, -0.5)).at,
];

/** Holds the camera higher until the tooth across the slot hides nothing of the flank: so does whoever takes the photo. */
function pictureOf(scene: Scene, surface: Surface): { readonly camera: Camera; readonly canvas: Canvas } {
  const axes = axesAt(surface, scene.flank === 'convex' ? -1 : 1);
  for (let above = scene.view.above_rad; ; above += 0.07) {
    const camera = placeCamera(scene, axes, above, surface);
    const canvas = emptyCanvas(scene.width, scene.height);
    const lamp = { from: unit(turnedFrom(axes, ...lampAngles(scene))), gloss: 40 };
    for (const tooth of [-2, -1, 0, 1, 2]) {
      for (const patch of toothPatches(scene.set, scene.flank, tooth)) paintPatch(canvas, patch, camera, lamp);
    }
    if (above > 1.25 || wholeFlankSeen(canvas, camera, surface)) return { camera, canvas };
  }
}

const lampAngles = ({ view, light }: Scene): readonly [number, number] => [
  view.aside_rad + light.lamp[0],
  view.above_rad + light.lamp[1] - 0.5,
];

function wholeFlankSeen(canvas: Canvas, camera: Camera, surface: Surface): boolean {
  for (let heel = -0.49; heel < 0.5; heel += 0.07) {
    for (const crown of [-0.48, -0.3, 0]) {
      const { at, depth_mm } = camera.see(surface(heel, crown));
      const k = Math.round(at[1]) * canvas.width + Math.round(at[0]);
      if ((canvas.nearness[k] ?? 0) > 1.004 / depth_mm) return false;
    }
  }
  return true;
}

/** The photo as a phone would keep it. */
export function asJpeg(photo: Photo, quality: number): Uint8Array {
  const copy: Photo = { ...photo, data: Uint8Array.from(photo.data) };
  halveColour(copy);
  return new Uint8Array(jpeg.encode(copy, quality).data);
}

interface Axes {
  readonly middle: Vector;
  readonly normal: Vector;
  readonly toHeel: Vector;
  readonly toCrown: Vector;
}

function axesAt(surface: (heel: number, crown: number) => Vector, outward: 1 | -1): Axes {
  const middle = surface(0, 0);
  const toHeel = unit(minus(surface(0.05, 0), surface(-0.05, 0)));
  const rise = minus(surface(0, 0.05), surface(0, -0.05));
  const toCrown = unit(minus(rise, along(toHeel, dot(rise, toHeel))));
  return { middle, normal: along(unit(cross(toHeel, toCrown)), outward), toHeel, toCrown };
}

/** A direction seen from the flank, turned aside to the heel and up to the crown. */
function turnedFrom({ normal, toHeel, toCrown }: Axes, aside: number, above: number): Vector {
  const level = plus(along(normal, Math.cos(aside)), along(toHeel, Math.sin(aside)));
  return plus(along(level, Math.cos(above)), along(toCrown, Math.sin(above)));
}

/** Aims so that the whole flank is in the picture, a little off its middle as hands do it. */
function placeCamera({ view, width, height, set }: Scene, axes: Axes, above: number, surface: Surface): Camera {
  const from = unit(turnedFrom(axes, view.aside_rad, above));
  const at = (scale: number, centre: Pixel) =>
    setUpCamera({
      width,
      height,
      target: axes.middle,
      from,
      distance_mm: view.distance_mm,
      up: axes.toCrown,
      roll_rad: view.roll_rad,
      scale,
      centre,
    });
  const scale = (view.fills * width) / set.frame.faceWidth_mm;
  const box = cornersOf(at(scale, [0, 0]), surface);
  const [low, high] = [
    [0, 1].map((axis) => Math.min(...box.map((p) => p[axis as 0 | 1]))),
    [0, 1].map((axis) => Math.max(...box.map((p) => p[axis as 0 | 1]))),
  ];
  const [x0, y0, x1, y1] = [low[0] as number, low[1] as number, high[0] as number, high[1] as number];
  const fits = Math.min(1, (0.9 * width) / (x1 - x0), (0.85 * height) / (y1 - y0));
  const slack = [width - fits * (x1 - x0), height - fits * (y1 - y0)] as const;
  return at(scale * fits, [
    width / 2 - (fits * (x0 + x1)) / 2 + view.off[0] * slack[0],
    height / 2 - (fits * (y0 + y1)) / 2 + view.off[1] * slack[1],
  ]);
}

/** What the painted metal sends to the camera. */
function expose(scene: Scene, canvas: Canvas, random: Random): Exposure {
  const { width, height } = canvas;
  const paint = paintwork(scene.film, spoiltGap(scene, random), random);
  const rippled = layered(Math.floor(random.uniform(1, 2 ** 31)));
  const light = new Float32Array(3 * width * height);
  const colour = new Float64Array(3);
  const { ambient, oil, exposure } = scene.light;
  for (let k = 0; k < width * height; k += 1) {
    const part = parts[(canvas.part[k] as number) - 1];
    if (part === undefined) {
      light.fill(0.025, 3 * k, 3 * k + 3);
      continue;
    }
    const [x, y] = [canvas.x[k] as number, canvas.y[k] as number];
    if (scene.spoilt === 'no-compound') bare(colour);
    else paint(part, x, y, colour);
    const falls =
      (ambient * sheltered(part, y) + (1 - ambient) * (canvas.lit[k] as number)) * shade(scene, k, width, height);
    const mirrored =
      oil * (canvas.shine[k] as number) * (0.6 + 0.4 * rippled(18 * x, 6 * y)) + spots(scene, part, x, y, rippled);
    for (let c = 0; c < 3; c += 1) light[3 * k + c] = exposure * ((colour[c] as number) * falls * 1.3 + mirrored);
  }
  return { width, height, light };
}

function bare(colour: Float64Array): void {
  colour.set([0.165, 0.155, 0.142]);
}

/** The bottom of the slot sees less of the sky. */
const sheltered = (part: Part, y: number): number => {
  if (part === 'floor') return 0.45;
  return part === 'flank' || part === 'other-flank' ? 0.85 + 0.3 * y : 1;
};

function shade({ light }: Scene, k: number, width: number, height: number): number {
  const [place, slope, soft, left] = light.shadow;
  if (left === 1) return 1;
  const [x, y] = [(k % width) / width - 0.5, Math.floor(k / width) / height - 0.5];
  const inside = Math.min(1, Math.max(0, (x - place - slope * y) / soft + 0.5));
  return 1 - (1 - left) * inside * inside * (3 - 2 * inside);
}

function spots({ light }: Scene, part: Part, x: number, y: number, rippled: (x: number, y: number) => number): number {
  if (part !== 'flank') return 0;
  let sum = 0;
  for (const [heel, crown, long, tall, strength] of light.spots) {
    const r = ((x - heel) / long) ** 2 + ((y - crown) / tall) ** 2;
    if (r < 12) sum += strength * Math.exp(-r / 2) * (0.8 + 0.2 * rippled(40 * x, 12 * y));
  }
  return sum;
}

/** The gap on the flank, or what a spoilt tooth shows in its place. */
function spoiltGap(scene: Scene, random: Random): GapInFilms {
  if (scene.spoilt === 'no-mark') return () => 1e3;
  if (scene.spoilt === 'smeared') {
    const wiped = layered(Math.floor(random.uniform(1, 2 ** 31)));
    return (heel, crown) => 1 + 1.6 * (wiped(9 * heel, 5 * crown) + 0.05);
  }
  return gapInFilms(scene.painted, scene.film_mm);
}
