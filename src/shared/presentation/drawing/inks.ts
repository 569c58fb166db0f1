/**
 * The palette. A drawing names what a stroke means; only here does a meaning become a colour.
 *
 * The tones are our own: warm greys for what the bench is made of, blue-black for what is written, marking blue
 * for the mark, workshop green for the one next action. The states keep to the blue–ochre axis and differ in
 * lightness as well, because that is what remains when red and green look alike (tests/unit/shared/presentation/drawing
 * computes contrast and simulates colour blindness). Each state has a shape of its own besides (states.ts).
 */
export const inkNames = [
  /** What everything lies on. */
  'ground',
  /** A sheet laid on the ground: fields, cards, the tooth seen end-on. */
  'surface',
  /** Digits and words. */
  'text',
  /** Words that explain and scales that are read off. */
  'quiet',
  /** Outlines that carry meaning. */
  'line',
  /** Graduation and separators; nothing is read from these alone. */
  'faint',
  /** Between the limits. */
  'band',
  /** The tooth flank. */
  'metal',
  'within',
  'outside',
  'too-close',
  'not-measured',
  'overridden',
  /** The one next action and nothing else. */
  'accent',
  /** The accent as a filled button: in the dark theme deeper than its letters, so that it does not outshine the digits. */
  'accent-fill',
  /** Words on the filled accent. */
  'on-accent',
  'mark',
  'mark-found',
  'plan',
  'target',
] as const;

export type Ink = (typeof inkNames)[number];

/** One colour, as #rrggbb, for every ink. */
export type Palette = Readonly<Record<Ink, string>>;

export type Theme = 'light' | 'dark' | 'print';

const light: Palette = {
  ground: '#efebe4',
  surface: '#f8f6f1',
  text: '#1b2330',
  quiet: '#595b60',
  line: '#76757a',
  faint: '#cbc6bc',
  band: '#cfd9d3',
  metal: '#e4dfd5',
  within: '#0f6c8c',
  outside: '#96200f',
  'too-close': '#8c6300',
  'not-measured': '#6a6a6c',
  overridden: '#4f2a78',
  accent: '#1f6a45',
  'accent-fill': '#1f6a45',
  'on-accent': '#f8f6f1',
  mark: '#2c4a8c',
  'mark-found': '#7a4a1e',
  plan: '#1b2330',
  target: '#52604f',
};

const dark: Palette = {
  ground: '#15171a',
  surface: '#1d2024',
  text: '#ece8df',
  quiet: '#a8a59d',
  line: '#8b8983',
  faint: '#3b3e42',
  band: '#2f3e3a',
  metal: '#24262a',
  within: '#7fcde6',
  outside: '#ea6242',
  'too-close': '#e2bd5c',
  'not-measured': '#97958f',
  overridden: '#a67fe0',
  accent: '#6cc294',
  'accent-fill': '#2c7a52',
  'on-accent': '#ffffff',
  mark: '#8caef0',
  'mark-found': '#d09a66',
  plan: '#ece8df',
  target: '#9aa893',
};

/** On white paper, and legible when the copier makes it grey. */
const print: Palette = {
  ground: '#ffffff',
  surface: '#ffffff',
  text: '#1b2330',
  quiet: '#55575c',
  line: '#6f7074',
  faint: '#cfccc5',
  band: '#d3e0da',
  metal: '#f0ede7',
  within: '#0f6a8a',
  outside: '#8f1d10',
  'too-close': '#8f6600',
  'not-measured': '#67676a',
  overridden: '#472570',
  accent: '#1f6a45',
  'accent-fill': '#1f6a45',
  'on-accent': '#ffffff',
  mark: '#2c4a8c',
  'mark-found': '#74451b',
  plan: '#1b2330',
  target: '#4c5a49',
};

export const palettes: Readonly<Record<Theme, Palette>> = { light, dark, print };
