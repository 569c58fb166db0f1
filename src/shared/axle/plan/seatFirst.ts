import { none } from '../../basics/result.ts';
import type { PlanAnswer } from './answer.ts';
import { type PlanInput, sides } from './input.ts';

/**
 * A mark that wanders round the gear by more than its reading can: no shim moves one tooth and not the next, so the ring
 * gear's seat comes first (common practice).
 * @returns nothing where the last trial's places agree, or only one was read.
 */
export function seatFirstAnswer({ trials }: PlanInput): PlanAnswer | undefined {
  const last = trials.at(-1);
  if (last?.looked === true) return undefined;
  const wandering = sides.flatMap((side) => {
    const wanders = last?.pattern[side].wanders;
    return wanders === undefined ? [] : [{ side, ...wanders }];
  });
  const [worst] = wandering.toSorted((a, b) => Math.max(b.heel, b.crown) - Math.max(a.heel, a.crown));
  if (last === undefined || worst === undefined) return undefined;
  const way = worst.crown > worst.heel ? `${share(worst.crown)} of its height` : `${share(worst.heel)} of the face`;
  return {
    decision: 'check',
    chance: none('the mark wanders round the gear'),
    look: [
      'Look at the ring gear’s seat first: bolts, dirt or a burr under it, and its runout where the mark wanders most.',
      'Read backlash and mark again at the same places, each with its gear angle, before any shim.',
    ],
    pinionOut_mm: last.pinionOut_mm,
    ringAway_mm: last.ringAway_mm,
    expected: none('the mark wanders round the gear'),
    reasons: [
      `The ${worst.side} mark wanders by ${way} from place to place round the gear, more than reading it can: no shim evens that out.`,
    ],
    warnings: [],
  };
}

const share = (part: number): string => `${Math.round(part * 100)} in 100`;
