import { none } from '../../basics/result.ts';
import type { MeshModel } from '../mesh/meshModel.ts';
import type { PlanAnswer } from './answer.ts';
import { type Contradiction, contradictionIn } from './check.ts';
import { checkLook, checkSentence } from './checkWords.ts';
import type { PlanInput } from './input.ts';
import { type Repaint, repaintOf } from './repaint.ts';

/**
 * What has to be seen to before anything is planned: trials that contradict each other or the shims, then a last mark
 * that tells nothing. No shim is asked for then.
 */
export function beforePlanning(input: PlanInput, model: MeshModel): PlanAnswer | undefined {
  const contradiction = contradictionIn(input, model);
  if (contradiction !== undefined) return checkAnswer(input, contradiction);
  const again = repaintOf(input);
  return again === undefined ? undefined : repaintAnswer(input, again);
}

export const checkAnswer = (input: PlanInput, found: Contradiction): PlanAnswer => ({
  ...standing(input, 'the trials contradict each other'),
  decision: 'check',
  look: checkLook(found, input.places),
  reasons: [checkSentence(found, input.places)],
  warnings: [],
});

export const repaintAnswer = (input: PlanInput, again: Repaint): PlanAnswer => ({
  ...standing(input, 'the mark tells nothing'),
  decision: 'repaint',
  look: again.look,
  reasons: [again.sentence, 'Paint again with the same shims: no shim is asked for until the mark tells something.'],
  warnings: [],
});

/** Nothing moves and nothing is promised. */
function standing({ trials }: PlanInput, reason: string) {
  const last = trials.at(-1);
  return {
    pinionOut_mm: last?.pinionOut_mm ?? 0,
    ringAway_mm: last?.ringAway_mm ?? 0,
    chance: none(reason),
    expected: none(reason),
  };
}
