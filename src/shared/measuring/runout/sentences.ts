import type { NoRunout } from './runoutMeasured.ts';

/** Why there is no runout, and what to do about it at the stand. */
const whyNoRunout: Readonly<Record<NoRunout, string>> = {
  'stem-landing':
    'The stem was still coming down when the turn began. Let it stand on the gear, then begin the turn and take it again.',
  'stem-lifted':
    'The stem was put down or lifted within the turn. Let it ride from the begin to the end of the turn, and mark both.',
  'nothing-measured': 'No reading came from the gauge.',
  'not-turned':
    'Nothing in the readings shows that the gear was turned. Turn it once round under the stem and take it again. A stand that creeps or shakes moves the needle by 0.006 mm as well: a gear that runs so true is typed.',
  'too-few': 'There are too few readings for a turn. Turn more slowly, or take the runout at stations.',
  'part-turn': 'The gear was not turned once round. Take it again over a whole turn.',
  'unit-jump':
    'The readings jumped as if the unit or the turn count had changed. Check the gauge and take the turn again.',
  drift:
    'The same place did not read the same a turn later: base or gear moved. Make both fast and take the turn again.',
  held: 'Over the whole turn the readings went one way only: the gauge holds its highest or lowest value. Switch it to its live reading and take the turn again.',
  'too-few-stations': 'Fewer than three stations were read. Take the missing ones.',
};

/** The sentence for a recorded reason; one that this table does not know is shown as it is, never hidden. */
export const noRunoutSentence = (reason: string): string =>
  isKnown(reason) ? whyNoRunout[reason] : `No runout: ${reason.replaceAll('-', ' ')}.`;

const isKnown = (reason: string): reason is NoRunout => Object.hasOwn(whyNoRunout, reason);
