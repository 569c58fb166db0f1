/**
 * How coarse a display really is, where too fine a step was entered or the gauge has changed its range: from one reading to
 * another it then goes by twos, fives or tens of entered steps, and never by one. Of fixed size.
 */
export interface ShownStep {
  /** The step as entered, mm. */
  readonly told: number;
  readonly perStep: number;
  last: number;
  /** Changes in a row that were multiples of two entered steps, and of five. */
  twos: number;
  fives: number;
}

export const newShownStep = (told: number): ShownStep => ({
  told,
  perStep: 1 / told,
  last: 0,
  twos: 0,
  fives: 0,
});

/** Of a display that goes by single steps so many changes in a row are even once in sixteen million. */
const ENOUGH = 24;

/** Takes in one reading. */
export function seeStep(seen: ShownStep, value: number): void {
  if (value === seen.last) return;
  // A whole number of the machine's own: this runs at every reading.
  const steps = (Math.abs(value - seen.last) * seen.perStep + 0.5) | 0;
  seen.last = value;
  if (steps <= 0) return;
  seen.twos = (steps & 1) === 0 ? seen.twos + 1 : 0;
  seen.fives = steps % 5 === 0 ? seen.fives + 1 : 0;
}

/** The step of the display, mm: as entered, unless it has lately gone by a larger one only. */
export const stepOf = ({ told, twos, fives }: Readonly<ShownStep>): number =>
  told * (twos >= ENOUGH ? 2 : 1) * (fives >= ENOUGH ? 5 : 1);
