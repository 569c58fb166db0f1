import type { MakeUp } from './makeUp.ts';

/** What a technician can see of how the teeth were cut; each may also be not known. */
export interface CutSigns {
  /** Height of the ring-gear tooth at the heel beside that at the toe. */
  readonly height: 'taller-at-heel' | 'equal' | 'not-known';
  /** The bottom of the slot between two teeth, from toe to heel. */
  readonly slot: 'equal' | 'wider-at-heel' | 'not-known';
  /** How the mark lies on the flank. */
  readonly mark: 'square' | 'slanted' | 'not-known';
}

interface CutGuess {
  readonly cut: MakeUp['cut'];
  readonly why: string;
}

type Votes = Readonly<Record<string, MakeUp['cut'] | undefined>>;
const byHeight: Votes = { 'taller-at-heel': 'face-milled', equal: 'face-hobbed' };
const bySlot: Votes = { equal: 'face-milled', 'wider-at-heel': 'face-hobbed' };

/**
 * What the signs say. Tooth height is the sign shops go by (common practice); the slot follows from how the cutters work
 * (derived: a milled slot has the width of the cutter's tips, a hobbed one spreads with the radius). A slanted mark is
 * only a hint. Signs that contradict each other give no answer: nothing is told from a majority of two.
 */
export function cutFrom({ height, slot, mark }: CutSigns): CutGuess {
  const votes = [byHeight[height], bySlot[slot]].filter((vote) => vote !== undefined);
  const [first] = votes;
  if (first === undefined) {
    const hint = mark === 'slanted' ? ' A slanted mark hints at face-hobbed and proves nothing.' : '';
    return { cut: 'not-known', why: `Neither height nor slot has been told.${hint} Not known is an answer.` };
  }
  if (votes.some((vote) => vote !== first))
    return {
      cut: 'not-known',
      why: 'Height and slot say different things: leave it at not known, and go by height of the mark.',
    };
  const square = first === 'face-milled' && mark === 'slanted';
  const slanted = first === 'face-hobbed' && mark === 'square';
  const doubt = square || slanted ? ' The way the mark lies does not fit that; look once more.' : '';
  return { cut: first, why: `${reasons[first]}${doubt}` };
}

const reasons: Readonly<Record<MakeUp['cut'], string>> = {
  'face-milled':
    'Teeth that get lower towards the toe, or a slot of one width, are those of a face-milled set (common practice).',
  'face-hobbed':
    'Teeth of one height from end to end, or a slot that widens to the heel, are those of a face-hobbed set (common practice).',
  'not-known': '',
};
