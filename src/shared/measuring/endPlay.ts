import { mm, type Length } from '../basics/quantity.ts';
import { isNone, none, type OrNone } from '../basics/result.ts';
import { type BacklashCapture, finishBacklash, startBacklash, stepBacklash } from './backlash/capture.ts';
import type { BacklashEvent, BacklashSettings, Flag, Refusal } from './backlash/measured.ts';
import type { StreamItem } from './reading.ts';
import type { UncertaintyPart } from './uncertainty/uncertainty.ts';

/*
 * Play along an axis, with the stem on the face of what is pushed and pulled: a case between its bearings, a shaft. A push held
 * against one bearing and a pull held against the other are two rests, as the two stops of a tooth are when a gear is rocked:
 * the same detectors find them, and the same arithmetic makes a number and its doubt of them. There is one place only, which
 * nobody leaves by lifting the stem.
 *
 * Where the play is nothing, nothing moves, and readings cannot tell that from hands that did not push. Then there is no
 * number: that no play can be felt is for the person to say.
 */

export type EndPlaySettings = Pick<BacklashSettings, 'resolution' | 'gaugeU' | 'hysteresis' | 'travel'>;
export type EndPlayCapture = BacklashCapture;
export type EndPlayEvent = BacklashEvent;
export type NoPlay = Refusal | 'not-moved';

export interface EndPlayMeasured {
  /** From the push to the pull, mean of all strokes; or why there is no number. */
  readonly value: OrNone<Length, NoPlay>;
  /** Pushes with a pull of their own. */
  readonly strokes: number;
  /** Standard deviation of the strokes; 0 with fewer than two. */
  readonly sd: Length;
  /** Standard and expanded (95 %) uncertainty; 0 where there is no value. */
  readonly u: Length;
  readonly U95: Length;
  readonly flags: readonly (Flag | 'not-moved')[];
  readonly parts: readonly UncertaintyPart[];
  /** For the technician, where a flag or a refusal needs a sentence. */
  readonly why?: string;
}

/** Begins. @throws RangeError for a resolution that is not above zero: a defect of the caller. */
export const startEndPlay = (settings: EndPlaySettings): EndPlayCapture =>
  startBacklash({ ...settings, stations: 1, nextBy: 'press' });

/** Takes in one reading or press and tells what happened with it. `capture` is changed in place. */
export const stepEndPlay = (capture: EndPlayCapture, item: StreamItem): readonly EndPlayEvent[] =>
  stepBacklash(capture, item);

/** Ends it: what was pushed and pulled so far is all there is. */
export function finishEndPlay(capture: EndPlayCapture): EndPlayMeasured {
  const [only] = finishBacklash(capture).stations;
  if (only === undefined) return notMoved;
  const { value, rocks, sd, u, U95, flags, parts } = only;
  const why = isNone(value) ? sentences[value.none] : flags.map((flag) => flagSentences[flag]).find(isSaid);
  return { value, strokes: rocks, sd, u, U95, flags, parts: parts.map(named), ...(why === undefined ? {} : { why }) };
}

/** Of a push and a pull nobody says rocks. */
const named = (part: UncertaintyPart): UncertaintyPart => (part.name === 'rocks' ? { ...part, name: 'strokes' } : part);

const isSaid = (sentence: string | undefined): sentence is string => sentence !== undefined;

/** What a refusal means where something is pushed and pulled, and what to look at. */
export const sentences: Readonly<Record<NoPlay, string>> = {
  'not-moved':
    'Nothing moved between push and pull. Readings cannot tell no play from no push: if none can be felt, enter it by hand.',
  drift: 'Push and pull moved together: the base of the indicator has moved. Make it fast and take it again.',
  'not-held': 'The rests creep: it was not held at the ends. Push, hold, pull, hold, and take it again.',
  'end-of-travel': 'The stem was at an end of its travel. Give it more room there and take it again.',
  'one-sided': 'Only one way was held home. Push and pull fully, hold at each end, and take it again.',
  'not-repeatable': 'The strokes do not repeat, or are too few: push and pull four times, held at each end.',
  'unit-jump': 'The readings jumped as if the unit had changed. Check the gauge and take it again.',
  gap: 'Readings are missing and the strokes before and after do not join up. Take it again.',
};

const flagSentences: Readonly<Partial<Record<Flag, string>>> = {
  gap: 'Readings are missing within it; no stroke was counted across the gap.',
  drift: 'The base of the indicator moved. What moved evenly is taken out of the number; make it fast.',
  'one-sided': 'One way repeats and the other does not. The number counts that in its doubt.',
  'correlated-noise': 'The readings wandered while it was held. The doubt counts what shows.',
  'not-repeatable': 'The rests differ more than hands usually make them. The number counts that in its doubt.',
};

const notMoved: EndPlayMeasured = {
  value: none('not-moved'),
  strokes: 0,
  sd: mm(0),
  u: mm(0),
  U95: mm(0),
  flags: ['not-moved'],
  parts: [],
  why: sentences['not-moved'],
};
