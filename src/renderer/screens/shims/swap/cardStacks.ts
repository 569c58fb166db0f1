import { insideOf } from '../../../../shared/basics/recorded.ts';
import type { SwapPlanned } from '../../../../shared/job/records/swap.ts';
import type { StacksInput } from '../../../../shared/presentation/drawing/shimStacks.ts';
import { placeWords } from '../../checks/typed/shims.ts';

/** The packs of a card as they are drawn: what comes out as the outline, what goes in filled. */
export const cardStacks = ({ lines }: SwapPlanned): Pick<StacksInput, 'packs'> => ({
  packs: lines.map((line) => ({ name: placeWords[line.place], before_mm: insideOf(line.out), now_mm: line.wanted_mm })),
});
