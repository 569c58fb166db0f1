import type { MakeUp } from '../makeUp.ts';
import { edgeNames, isBound, type Mark } from './mark.ts';
import type { SeenAt } from './meaning/sentence.ts';
import { type Box, newSetRight, usedSetNear } from './right.ts';
import { untelling } from './untelling.ts';

/** What a pair of marks asks of whoever painted them: nothing, a look at the plan, another painting; or it is not there yet. */
export type MarksAsk = 'nothing' | 'the-plan' | 'painting' | 'a-mark';

/**
 * A first answer by the drive mark alone, from the boxes by which the plan calls a place right (`right.ts`): a new set's mark
 * in them and cut off by no edge, a used set's within them of its own mark. The plan weighs the trials and may answer otherwise.
 */
export function marksAsk({ drive }: SeenAt, own: Mark | undefined, gearSet: MakeUp['gearSet']): MarksAsk {
  if (drive === undefined) return 'a-mark';
  if (untelling(drive) !== undefined) return 'painting';
  if (gearSet === 'used') return own !== undefined && isBeside(drive, own) ? 'nothing' : 'the-plan';
  const whole = !isBound(drive, 'crown') && edgeNames.every((edge) => drive.edges[edge] !== 'hard');
  return whole && isIn(newSetRight, drive) ? 'nothing' : 'the-plan';
}

const isIn = ({ heel, crown }: Box, mark: Mark): boolean =>
  mark.heel >= heel[0] && mark.heel <= heel[1] && mark.crown >= crown[0] && mark.crown <= crown[1];

const isBeside = (mark: Mark, own: Mark): boolean =>
  Math.abs(mark.heel - own.heel) <= usedSetNear.heel && Math.abs(mark.crown - own.crown) <= usedSetNear.crown;
