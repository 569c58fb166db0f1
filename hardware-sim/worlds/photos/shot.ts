import { along, cross, dot, minus, plus, unit } from '../../axle/mesh/vector.ts';
import type { Random } from '../../seeded.ts';
import { drawContact, drawFilm, smears, type TrueMark, truthOf, untouched } from './contact.ts';
import { drawDirt } from './dirt.ts';
import { drawLighting, type Stand } from './light.ts';
import type { Manner } from './manners.ts';
import { type CompoundName, glowing, type MetalName } from './paint.ts';
import { type Bytes, developed, type Sensor } from './phone.ts';
import { look, type Picture, surfaces } from './picture.ts';
import { type Pinhole, pinhole, type Pixel } from './pinhole.ts';
import { eyesight, type Eyesight } from './eyesight.ts';
import { drawTooth, flankPoint, type Tooth } from './tooth.ts';

type FourCorners = readonly [Pixel, Pixel, Pixel, Pixel];

/** A photo of this world, and what is true of it. */
export interface Shot {
  readonly photo: Bytes;
  /** Toe-root, toe-crown, heel-crown, heel-root as a finger taps them. */
  readonly tapped: FourCorners;
  readonly tooth: Tooth;
  /** Where a place of the flank lies in the photo. */
  readonly sees: (heel: number, crown: number) => Pixel;
  /** The mark that is there; nothing where the tooth was spoilt. */
  readonly mark: TrueMark | undefined;
  /** What a person sees of it. */
  readonly eyesight: Eyesight;
}

interface Wanted {
  readonly compound: CompoundName;
  readonly metal: MetalName;
  readonly manner: Manner;
  readonly size?: readonly [number, number];
}

/** How far a finger's tap is off, as a share of the flank's length in the photo (own assumption). */
const finger = 0.003;

export function shoot({ compound, metal, manner, size = [1000, 750] }: Wanted, random: Random): Shot {
  const tooth = drawTooth(random, manner.tooth);
  const film = drawFilm(random, manner.film);
  const contact = contactOf(manner, tooth, random);
  const { camera, stand } = holdCamera(tooth, manner, size, random);
  const see = (heel: number, crown: number): Pixel => {
    const [x, y] = camera.see(flankPoint(tooth, heel, crown));
    return [x, y];
  };
  const corners: FourCorners = [see(-0.5, -0.5), see(-0.5, 0.5), see(0.5, 0.5), see(0.5, -0.5)];
  const lighting = drawLighting(random, stand, manner.light);
  const picture = look(tooth, camera, size, lighting.litAt);
  const bare = manner.spoilt === 'no-compound';
  const left = bare ? () => 0 : contact.left;
  const paintedFilm = bare ? { ...film, laid: () => 0 } : film;
  const dirt = drawDirt(random, manner.dirt, contact.near);
  const glow = glowing({ compound, metal, film: paintedFilm, left, lighting, dirt }, random);
  const photo = developed(exposed(picture, glow, around(corners, size)), manner.phone, random);
  const off = finger * Math.hypot(corners[0][0] - corners[3][0], corners[0][1] - corners[3][1]);
  const tap = ([x, y]: Pixel): Pixel => [x + random.normal(0, off), y + random.normal(0, off)];
  return {
    photo,
    tapped: [tap(corners[0]), tap(corners[1]), tap(corners[2]), tap(corners[3])],
    tooth,
    sees: see,
    mark: manner.spoilt === undefined ? truthOf(contact, tooth) : undefined,
    eyesight: eyesight(photo, see, contact.near, tooth),
  };
}

function contactOf(manner: Manner, tooth: Tooth, random: Random) {
  if (manner.spoilt === 'smeared') return smears(random);
  return manner.spoilt === 'no-mark' ? untouched : drawContact(random, tooth, manner.contact);
}

/** Left, right, top and bottom of what is looked at closely: the flank and as much again above and below it. */
type Box = readonly [number, number, number, number];
function around(corners: FourCorners, [width, height]: readonly [number, number]): Box {
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const room = 0.3 * Math.hypot(corners[0][0] - corners[3][0], corners[0][1] - corners[3][1]);
  return [
    Math.max(0, Math.min(...xs) - room),
    Math.min(width, Math.max(...xs) + room),
    Math.max(0, Math.min(...ys) - room),
    Math.min(height, Math.max(...ys) + room),
  ];
}

/** Every pixel near the flank; farther off one in sixteen stands for its neighbours. */
function exposed(
  { width, height, surface, planes }: Picture,
  glow: ReturnType<typeof glowing>,
  [left, right, top, bottom]: Box,
): Sensor {
  const light = new Float32Array(3 * width * height).fill(0.02);
  const out = new Float64Array(3);
  let k = 0;
  const at = (n: number) => planes[n]?.[k] ?? 0;
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const close = x >= left && x < right && y >= top && y < bottom;
      k = close ? y * width + x : (y - (y % 4)) * width + x - (x % 4);
      const name = surfaces[surface[k] ?? 0] ?? 'nothing';
      if (name === 'nothing') continue;
      if (close || x % 4 === 0) glow(name, at, out);
      light.set(out, 3 * (y * width + x));
    }
  }
  return { width, height, light };
}

/** Raises the camera until the tooth across the slot hides nothing of the flank, as whoever takes the photo does. */
function holdCamera(tooth: Tooth, manner: Manner, size: readonly [number, number], random: Random) {
  const { hold } = manner;
  const drawn = {
    distance: tooth.face * random.uniform(...hold.distance),
    aside: random.uniform(-hold.aside, hold.aside),
    roll: random.uniform(-1, 1) * (hold.roll ?? 0.3),
    fills: random.uniform(...hold.fills),
    off: [random.uniform(-0.25, 0.25), random.uniform(-0.25, 0.25)] as const,
    barrel: random.uniform(-1, 1) * hold.barrel,
  };
  for (let above = random.uniform(...hold.above); ; above += 0.06) {
    const stand = standAt(tooth, drawn, above);
    const camera = aimed(tooth, stand, drawn, size);
    if (above > 1.3 || nothingHides(tooth, camera)) return { camera, stand };
  }
}

interface Drawn {
  readonly distance: number;
  readonly aside: number;
  readonly roll: number;
  readonly fills: number;
  readonly off: readonly [number, number];
  readonly barrel: number;
}

function standAt(tooth: Tooth, { distance, aside }: Drawn, above: number): Stand {
  const middle = flankPoint(tooth, 0, 0);
  const toHeel = unit(minus(flankPoint(tooth, 0.05, 0), flankPoint(tooth, -0.05, 0)));
  const rise = minus(flankPoint(tooth, 0, 0.05), flankPoint(tooth, 0, -0.05));
  const toCrown = unit(minus(rise, along(toHeel, dot(rise, toHeel))));
  const square = unit(cross(toHeel, toCrown));
  // The slot lies on the side away from the tooth's own body.
  const normal = along(square, dot(square, minus(flankPoint(tooth, 0, 0, tooth.side), middle)) > 0 ? 1 : -1);
  const level = plus(along(normal, Math.cos(aside)), along(toHeel, Math.sin(aside)));
  const way = unit(plus(along(level, Math.cos(above)), along(toCrown, Math.sin(above))));
  return { middle, normal, toHeel, toCrown, eye: plus(middle, along(way, distance)), face: tooth.face };
}

function aimed(tooth: Tooth, stand: Stand, drawn: Drawn, [width, height]: readonly [number, number]): Pinhole {
  const held = { eye: stand.eye, target: stand.middle, up: stand.toCrown, roll: drawn.roll, barrel: drawn.barrel };
  const focal = (drawn.fills * width * drawn.distance) / tooth.face;
  const centre: Pixel = [width * (0.5 + 0.5 * drawn.off[0] * (1 - drawn.fills)), height * (0.5 + 0.5 * drawn.off[1])];
  return pinhole({ ...held, focal, centre });
}

/** Rays to the flank from the eye, against the land of the tooth across the slot, tried by where both lie in the picture. */
function nothingHides(tooth: Tooth, camera: Pinhole): boolean {
  const picture = look(tooth, shrunk(camera), [150, 112], () => []);
  const flank = surfaces.indexOf('flank');
  for (let heel = -0.48; heel < 0.5; heel += 0.08) {
    for (const crown of [-0.46, -0.2, 0.3]) {
      const [x, y, nearness] = camera.see(flankPoint(tooth, heel, crown));
      const k = Math.round(y / 8) * picture.width + Math.round(x / 8);
      if (picture.surface[k] !== flank && picture.surface[k] !== surfaces.indexOf('floor')) return false;
      if ((picture.nearness[k] ?? 0) > nearness * 1.006) return false;
    }
  }
  return true;
}

const shrunk = (camera: Pinhole): Pinhole => ({
  ...camera,
  see: (point) => {
    const [x, y, nearness] = camera.see(point);
    return [x / 8, y / 8, nearness];
  },
});
