import { type Length, mm } from '../../basics/quantity.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { pinionInWords, thicknessInWords } from './words.ts';

/** Where the shim that sets pinion depth sits. The same thickness moves the pinion one way or the other by it. */
export const depthPlaces = ['under-head', 'behind-head-cup', 'under-cage'] as const;
export type DepthPlace = (typeof depthPlaces)[number];

const placeInWords: Record<DepthPlace, string> = {
  'under-head': 'under the pinion head bearing',
  'behind-head-cup': 'behind the head bearing cup',
  'under-cage': 'under the pinion cage',
};

/** 1 where a thicker shim moves the pinion out, −1 where it moves it deeper (common practice; TM 10-3930-660-34 for the cage). */
const outwards: Record<DepthPlace, 1 | -1> = { 'under-head': -1, 'behind-head-cup': -1, 'under-cage': 1 };

/** The answer to "which depth shim": echoed in words, because only words show which way the pinion goes. */
export interface DepthAnswer {
  /** Movement of the pinion, out positive. */
  readonly pinionOut: Length;
  /** Change of the shim's thickness, and what it becomes. */
  readonly change: Length;
  readonly shim: Length;
  readonly words: string;
}

/** The shim that moves the pinion by `pinionOut`, from the one that is in now. */
export function shimForMovement(
  now: Length,
  pinionOut: Length,
  place: DepthPlace,
): Result<DepthAnswer, 'no-such-shim'> {
  const change = mm(outwards[place] * pinionOut);
  return answer(now, mm(now + change), place);
}

/** What putting `next` in place of `now` does. */
export function answer(now: Length, next: Length, place: DepthPlace): Result<DepthAnswer, 'no-such-shim'> {
  if (next < 0) return noSuchShim(next);
  const change = mm(next - now);
  const pinionOut = mm(outwards[place] * change);
  const words = `${pinionInWords(pinionOut)} The shim ${placeInWords[place]} ${thicknessInWords(change)}.`;
  return ok({ pinionOut, change, shim: next, words });
}

const noSuchShim = (thickness: Length): Result<never, 'no-such-shim'> =>
  fail({
    kind: 'no-such-shim',
    field: 'shim',
    sentence: `The shim would have to be ${thickness.toFixed(3)} mm thick, less than nothing.`,
    remedy: 'Check the marks, their unit and their sign, and where the shim sits.',
  });
