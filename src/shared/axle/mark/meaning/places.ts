import type { Mark } from '../mark.ts';
import { hundredths, type Meaning, say, type SeenAt } from './sentence.ts';

/** Marks that differ more than this round the gear differ, where nobody knows how well they were read: own choice. */
const plain = { heel: 0.1, crown: 0.1 };

/** Differences between places round the gear belong to runout and seating, not to shims. */
export function places(seen: readonly SeenAt[]): readonly Meaning[] {
  if (seen.length < 2) return [];
  const found = (['drive', 'coast'] as const).flatMap((flank) => {
    const marks = seen.flatMap((one) => one[flank] ?? []);
    return (['crown', 'heel'] as const).flatMap((along) => spreadSentence(flank, marks, along));
  });
  return found.length > 0 ? found : [say('places', 'derived', 'The marks are alike at every place that was read.')];
}

function spreadSentence(flank: 'drive' | 'coast', marks: readonly Mark[], along: 'heel' | 'crown'): readonly Meaning[] {
  if (marks.length < 2) return [];
  const values = marks.map((mark) => mark[along]);
  const spread = Math.max(...values) - Math.min(...values);
  const doubt = Math.max(
    ...marks.map((mark) => (mark.U95 === undefined ? plain[along] / Math.SQRT2 : mark.U95[along])),
  );
  if (spread <= Math.SQRT2 * doubt) return [];
  const of = along === 'heel' ? 'of the face along it' : 'of the height';
  return [
    say(
      'places',
      'common-practice',
      `The ${flank} mark shifts by ${hundredths(spread)} ${of} from place to place: look at runout, at dirt or burrs under the ring gear and at its bolts before changing shims.`,
    ),
  ];
}
