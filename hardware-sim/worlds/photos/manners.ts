import type { ContactManner, FilmManner } from './contact.ts';
import type { DirtManner } from './dirt.ts';
import type { LightManner } from './light.ts';
import type { PhoneManner } from './phone.ts';
import type { ToothManner } from './tooth.ts';

/** How a photo was held: distance in face widths, angles in rad, share of the picture the flank fills. */
interface HoldManner {
  readonly distance: readonly [number, number];
  readonly aside: number;
  readonly above: readonly [number, number];
  readonly fills: readonly [number, number];
  readonly barrel: number;
  /** Turned about the line of sight by up to so much; 0.3 where nothing is said. */
  readonly roll?: number;
}

/** Everything that is drawn for one photo; each manner narrows or widens some of it. */
export interface Manner {
  readonly tooth: ToothManner;
  readonly contact: ContactManner;
  readonly film: FilmManner;
  readonly light: LightManner;
  readonly phone: PhoneManner;
  readonly hold: HoldManner;
  readonly dirt?: DirtManner;
  /** In place of a mark: what nobody can read. */
  readonly spoilt?: 'no-mark' | 'no-compound' | 'smeared';
}

const plain: Manner = {
  tooth: { narrowing: [0.8, 1], bow: [0, 0.1], curve: [-0.6, 0.6] },
  contact: { length: [0.3, 0.75], tall: [0.35, 0.75], off: 0.7, slant: 0.3, feather: [0.1, 0.5], rough: 0.03 },
  film: { patchy: 0.15, streaky: 0.1, hiding: [2.2, 4], residue: [0, 0.1] },
  light: { ambient: [0.3, 0.6], lampOff: [4, 8], lamps: 1, tint: 0.08, glints: 0.15, sheen: 0.05, shadow: [1, 1] },
  phone: {
    blur: [0.3, 1],
    shake: [0, 0.4],
    vignette: [0, 0.3],
    noise: [0.005, 0.02],
    balance: 0.06,
    curve: 0.1,
    sharpen: 0.2,
    vivid: 0.1,
    quality: [78, 94],
    exposure: [0.8, 1.1],
  },
  hold: { distance: [5, 9], aside: 0.3, above: [0.55, 0.95], fills: [0.5, 0.8], barrel: 0.02 },
};

/** The manners looked at while the reading was worked on. */
export const looked = {
  plain,
  tapered: { ...plain, tooth: { ...plain.tooth, narrowing: [0.55, 0.8] } },
  patchy: { ...plain, film: { ...plain.film, patchy: 0.45, streaky: 0.1 }, contact: { ...plain.contact, rough: 0.07 } },
  glints: { ...plain, light: { ...plain.light, glints: 0.9 } },
  'lamp close by': { ...plain, light: { ...plain.light, lampOff: [0.9, 2], ambient: [0.1, 0.3] } },
  'dim and noisy': { ...plain, phone: { ...plain.phone, noise: [0.04, 0.07], exposure: [0.35, 0.6] } },
  'over an edge': { ...plain, contact: { ...plain.contact, off: 1.35 } },
  'coloured light': { ...plain, light: { ...plain.light, tint: 0.3 }, phone: { ...plain.phone, balance: 0.15 } },
  'thin film': { ...plain, film: { ...plain.film, hiding: [1, 1.8] } },
  'end in shadow': { ...plain, light: { ...plain.light, shadow: [0.3, 0.6] } },
} as const satisfies Record<string, Manner>;

/** The manners held out: no photo of these was looked at, and no limit was set on them. */
export const heldOut = {
  bowed: { ...plain, tooth: { narrowing: [0.7, 1.05], bow: [0.1, 0.3], curve: [-1.2, 1.2] } },
  streaky: { ...plain, film: { ...plain.film, streaky: 0.5, residue: [0.05, 0.25] } },
  sheen: { ...plain, light: { ...plain.light, sheen: 0.4, glints: 0.3 } },
  'two lamps': { ...plain, light: { ...plain.light, lamps: 2, tint: 0.22, lampOff: [1.2, 4], ambient: [0.15, 0.4] } },
  'small file': { ...plain, phone: { ...plain.phone, quality: [28, 50], vignette: [0.4, 0.9] } },
  soft: { ...plain, phone: { ...plain.phone, blur: [1.8, 3], shake: [1, 3] } },
  'phone program': { ...plain, phone: { ...plain.phone, curve: 0.6, sharpen: 1, vivid: 0.5 } },
  'near and aslant': { ...plain, hold: { ...plain.hold, distance: [2.6, 4], aside: 0.6, above: [0.45, 1.1] } },
  'small in the picture': { ...plain, hold: { ...plain.hold, fills: [0.22, 0.36] } },
  'long and slanted': {
    ...plain,
    contact: { ...plain.contact, length: [0.6, 0.95], tall: [0.25, 0.5], slant: 0.7, off: 1.1, feather: [0.3, 0.9] },
  },
} as const satisfies Record<string, Manner>;

/** Dirt, hurry and bad light, drawn up when the reading stood as it does: held out as well. */
export const shopFloor = {
  rusty: { ...plain, dirt: { rust: 0.4 } },
  fingerprints: { ...plain, dirt: { prints: { count: 2, takes: 0.6 } } },
  'two compounds': { ...plain, dirt: { second: 0.5 } },
  'worn bright': { ...plain, dirt: { wear: 0.7 }, film: { ...plain.film, streaky: 0.25 } },
  'oil on it': {
    ...plain,
    light: { ...plain.light, sheen: 0.7, glints: 0.6 },
    film: { ...plain.film, residue: [0.1, 0.3] },
  },
  'in a hurry': {
    ...plain,
    hold: { ...plain.hold, roll: 0.9, fills: [0.35, 0.6], aside: 0.45 },
    phone: { ...plain.phone, quality: [35, 60], noise: [0.02, 0.05], shake: [0.5, 1.5] },
    light: { ...plain.light, shadow: [0.5, 0.8] },
  },
  'brushed thick and thin': { ...plain, film: { ...plain.film, streaky: 0.4, patchy: 0.3, hiding: [1.5, 3] } },
  'lamp beside, rust, file of a messenger': {
    ...plain,
    dirt: { rust: 0.25 },
    light: { ...plain.light, lampOff: [1.2, 3], ambient: [0.15, 0.4] },
    phone: { ...plain.phone, quality: [40, 60], sharpen: 0.7, curve: 0.4 },
  },
} as const satisfies Record<string, Manner>;

/** Photos that nobody can read a mark in. */
export const unreadables = {
  'no mark': { ...plain, spoilt: 'no-mark' },
  'no mark, patchy': { ...plain, spoilt: 'no-mark', film: { ...plain.film, patchy: 0.35, streaky: 0.25 } },
  'no mark, streaky': { ...plain, spoilt: 'no-mark', film: { ...plain.film, streaky: 0.55, hiding: [1.2, 3] } },
  'no mark, rusty': { ...plain, spoilt: 'no-mark', dirt: { rust: 0.4 }, film: { ...plain.film, hiding: [0.8, 1.6] } },
  'no mark, two compounds': { ...plain, spoilt: 'no-mark', dirt: { second: 0.5 } },
  'no compound': { ...plain, spoilt: 'no-compound' },
  smeared: { ...plain, spoilt: 'smeared' },
  'out of focus': { ...plain, phone: { ...plain.phone, blur: [12, 18] } },
} as const satisfies Record<string, Manner>;
