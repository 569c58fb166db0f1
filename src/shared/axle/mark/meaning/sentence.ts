import type { Mark } from '../mark.ts';

/** Where a sentence comes from: a public manual, what shops commonly do, or geometry worked out for this bench. */
export type Standing = 'published' | 'common-practice' | 'derived';

export type MeaningKind =
  | 'tells-nothing'
  | 'height'
  | 'along-face'
  | 'coast'
  | 'agreement'
  | 'places'
  | 'slant'
  | 'hard-line'
  | 'beyond-shims'
  | 'used-set'
  | 'worn-drive'
  | 'sources-disagree';

/** One plain sentence, or two that belong together. */
export interface Meaning {
  readonly kind: MeaningKind;
  readonly standing: Standing;
  readonly text: string;
  /** Public documents it rests on. */
  readonly sources?: readonly string[];
}

/** The two marks of one tooth. */
export interface SeenAt {
  readonly drive?: Mark;
  readonly coast?: Mark;
}

/** Public manuals by what they agree on. */
export const manuals = {
  /** Pinion too far out: mark high; too near: mark low. */
  height: ['TM 10-3930-671-24', 'TM 5-3810-306-34', 'TM 10-3930-660-34', 'TM 10-3930-653-14&P'],
  /** Ring gear away: mark to the heel; closer: to the toe. */
  ringGear: ['TM 10-3930-671-24', 'TM 5-3810-306-34', 'TM 10-3930-660-34'],
  /** Opposite answers along the face to pinion depth, neither naming the cut. */
  depthAlongFace: ['TM 9-2320-266-34', 'TM 5-3805-260-24'],
  driveFirst: ['TM 9-2320-273-34'],
  light: ['TM 9-2320-266-34'],
} as const satisfies Record<string, readonly string[]>;

export const say = (kind: MeaningKind, standing: Standing, text: string, sources?: readonly string[]): Meaning =>
  sources === undefined ? { kind, standing, text } : { kind, standing, text, sources };

/** A fraction as a technician reads it: hundredths of the face or of the height. */
export const hundredths = (value: number): string => `${Math.round(100 * Math.abs(value))} %`;
