import type { Ink } from './inks.ts';

/**
 * A drawing as plain data: a function of what was measured, free of any screen or page. The renderer shows it
 * as SVG, the certificate draws the same elements into the PDF, so that both say the same thing.
 *
 * Lengths are scene units: x to the right, y down, one unit a CSS pixel on screen and a point on paper.
 */
export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly elements: readonly Element[];
  /** Alternative text: what the picture is. */
  readonly title: string;
  /** Alternative text: what it says, with the numbers. */
  readonly description: string;
}

/** What a caller says about size: the room there is, and the height of ordinary letters in it. */
export interface SceneSize {
  readonly width: number;
  readonly height: number;
  readonly text: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Fill, stroke, or both; neither draws nothing. */
export interface Style {
  readonly fill?: Ink;
  readonly stroke?: Ink;
  /** Stroke width; 1 where it is not given. */
  readonly width?: number;
  /** Lengths of dash and gap. */
  readonly dash?: readonly number[];
  /** Stroke ends; butt where it is not given. Joins are always round. */
  readonly cap?: 'round' | 'butt';
  readonly opacity?: number;
}

export type Weight = 400 | 500 | 600 | 700;
export type Anchor = 'start' | 'middle' | 'end';

export interface PathElement extends Style {
  readonly kind: 'path';
  /** SVG path data with absolute M, L, C, Q, A and Z only. Filled by the non-zero rule. */
  readonly d: string;
}

export interface CircleElement extends Style {
  readonly kind: 'circle';
  readonly x: number;
  readonly y: number;
  readonly r: number;
}

export interface TextElement {
  readonly kind: 'text';
  readonly x: number;
  /** The baseline. */
  readonly y: number;
  readonly text: string;
  /** Font size. */
  readonly size: number;
  readonly weight: Weight;
  readonly anchor: Anchor;
  readonly ink: Ink;
  /** Digits of one width, so that a column or a live number stands still. */
  readonly tabular: boolean;
}

export interface GroupElement {
  readonly kind: 'group';
  readonly translate?: Point;
  /** Clockwise, about the translated origin, after translating. */
  readonly rotate_deg?: number;
  readonly opacity?: number;
  readonly elements: readonly Element[];
}

export type Element = PathElement | CircleElement | TextElement | GroupElement;

export const path = (d: string, style: Style): PathElement => ({ kind: 'path', d, ...style });

export const circle = (at: Point, r: number, style: Style): CircleElement => ({
  kind: 'circle',
  x: at.x,
  y: at.y,
  r,
  ...style,
});

export const group = (elements: readonly Element[], place: Omit<GroupElement, 'kind' | 'elements'>): GroupElement => ({
  kind: 'group',
  elements,
  ...place,
});

type TextStyle = Partial<Pick<TextElement, 'weight' | 'anchor' | 'ink' | 'tabular'>>;

/** Words at a baseline; plain text ink, start-anchored and proportional unless said otherwise. */
export const text = (words: string, at: Point, size: number, style: TextStyle = {}): TextElement => ({
  kind: 'text',
  text: words,
  x: at.x,
  y: at.y,
  size,
  weight: style.weight ?? 400,
  anchor: style.anchor ?? 'start',
  ink: style.ink ?? 'text',
  tabular: style.tabular ?? false,
});

/**
 * How thick a line is: `weight` 1 is an ordinary one beside letters of 16. Lines grow and shrink with the letters,
 * so that a drawing keeps its look from a small figure on paper to a stage on screen.
 */
export const pen = (letter: number, weight = 1): number => (letter / 16) * weight;

/**
 * How wide words are at most, for keeping labels apart; the real width is the font's business. Labels of these
 * drawings measured 0.46 to 0.59 em a character in Inter Regular, so this errs on the wide side.
 */
export const roughWidth = (words: string, size: number): number => words.length * size * 0.6;
