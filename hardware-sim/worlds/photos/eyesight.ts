import type { Nearness } from './contact.ts';
import type { Bytes } from './phone.ts';
import type { Pixel } from './pinhole.ts';
import { heightAt, type Tooth } from './tooth.ts';

/**
 * What a person sees of the mark's outline, set down before anything was read by machine. At places all along the true
 * outline the colour a little inside is held beside the colour a little outside: a person sees the outline there where
 * they differ by ten units of CIE L*a*b* (a difference that needs no looking for), and by more than twice what two
 * places equally far apart differ that lie on the same side of it, both beyond its fading rim. Whoever sees four fifths of an outline sees the mark.
 */
export interface Eyesight {
  /** Share of the outline that is seen. */
  readonly seen: number;
  /** Difference across the outline in the middle, ΔE*ab. */
  readonly difference: number;
  readonly reads: boolean;
}

const plain = 10;
const enough = 0.8;
/** How far inside and outside one looks, and how wide, in mm. */
const [aside, patch] = [1.1, 0.45];

type See = (heel: number, crown: number) => Pixel;

export function eyesight(photo: Bytes, see: See, near: Nearness, tooth: Tooth): Eyesight {
  const colourAt = (heel: number, crown: number) => meanLab(photo, see, tooth, heel, crown);
  const across: number[] = [];
  const within: number[] = [];
  for (const [heel, crown, outX, outY] of outlineOf(near, tooth)) {
    const height = heightAt(tooth, heel);
    const at = (mm: number, side: -1 | 1) => {
      const place = [heel + (mm * outX) / tooth.face, crown + (mm * outY) / height] as const;
      return near(...place) < 1 === side < 0 ? colourAt(...place) : undefined;
    };
    const [outside, farther] = [at(aside, 1), at(3 * aside, 1)];
    const inside = [at(-aside, -1), at(-2 * aside, -1)].filter((one) => one !== undefined);
    if (outside === undefined || inside.length === 0) continue;
    across.push(Math.max(...inside.map((one) => apart(one, outside))));
    if (farther !== undefined) within.push(apart(outside, farther));
    const [deep, deeper] = [at(-3 * aside, -1), at(-5 * aside, -1)];
    if (deep !== undefined && deeper !== undefined) within.push(apart(deep, deeper));
  }
  const unrest = middle(within);
  const seen = across.filter((one) => one >= plain && one >= 2 * unrest).length / Math.max(1, across.length);
  return { seen, difference: middle(across), reads: across.length > 0 && seen >= enough };
}

/** Places on the outline with the way out of the mark, in mm; only where both sides lie on the flank. */
function outlineOf(near: Nearness, tooth: Tooth): readonly (readonly [number, number, number, number])[] {
  const found: (readonly [number, number, number, number])[] = [];
  const [across, up] = [60, 24];
  for (let i = 1; i < across; i += 1) {
    for (let j = 1; j < up; j += 1) {
      const [heel, crown] = [i / across - 0.5, j / up - 0.5];
      const [stepX, stepY] = [0.5 / across, 0.5 / up];
      const signs = [
        near(heel - stepX, crown),
        near(heel + stepX, crown),
        near(heel, crown - stepY),
        near(heel, crown + stepY),
      ].map((one) => one < 1);
      if (signs.every((one) => one === signs[0])) continue;
      const dx = (near(heel + stepX, crown) - near(heel - stepX, crown)) / (2 * stepX * tooth.face);
      const dy = (near(heel, crown + stepY) - near(heel, crown - stepY)) / (2 * stepY * heightAt(tooth, heel));
      const size = Math.hypot(dx, dy) || 1;
      found.push([heel, crown, dx / size, dy / size]);
    }
  }
  return found;
}

type Lab = readonly [number, number, number];
const apart = (p: Lab, q: Lab): number => Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
const middle = (list: readonly number[]): number => list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;

/** Mean colour of a patch; nothing beyond the flank's edge or where all three channels are burnt out. */
function meanLab(photo: Bytes, see: See, tooth: Tooth, heel: number, crown: number): Lab | undefined {
  const [reachX, reachY] = [patch / tooth.face, patch / tooth.height];
  if (Math.abs(heel) > 0.5 - reachX || Math.abs(crown) > 0.5 - reachY) return undefined;
  const sum: [number, number, number] = [0, 0, 0];
  let burnt = 0;
  for (let n = 0; n < 25; n += 1) {
    const [x, y] = see(heel + (((n % 5) - 2) / 2) * reachX, crown + ((Math.floor(n / 5) - 2) / 2) * reachY);
    const k = 4 * (Math.round(y) * photo.width + Math.round(x));
    const bytes = [photo.data[k] ?? 0, photo.data[k + 1] ?? 0, photo.data[k + 2] ?? 0] as const;
    if (bytes.every((one) => one >= 252)) burnt += 1;
    bytes.forEach((one, c) => (sum[c] = (sum[c] ?? 0) + lightOf(one) / 25));
  }
  return burnt > 12 ? undefined : labOf(sum);
}

const lightOf = (byte: number): number => {
  const share = byte / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
};

/** CIE 1976 L*a*b* under D65 (CIE 15; matrix IEC 61966-2-1; both from memory). */
function labOf([r, g, b]: Lab): Lab {
  const root = (t: number) => (t > 0.008856 ? Math.cbrt(t) : 7.787 * t + 16 / 116);
  const x = root((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505);
  const y = root(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = root((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}
