import { isBound } from '../mark.ts';
import { hundredths, type Meaning, say, type SeenAt } from './sentence.ts';

/** Shares of the face that public manuals want a light mark to cover, each for its own machine. */
const wanted = [
  { document: 'TM 5-3805-260-24', share: 0.3 },
  { document: 'TM 5-4210-230-14&P-1', share: 0.625 },
  { document: 'TM 10-3930-653-14&P', share: 0.75 },
] as const;

/**
 * How long a light mark should be: the sources want a third, more than half and three quarters, and it grows with film
 * and drag. So its length is told and not judged.
 */
export function length({ drive }: SeenAt): readonly Meaning[] {
  if (drive === undefined) return [];
  const cut = isBound(drive, 'heel') ? 'at least ' : '';
  const shares = wanted.map(({ share }) => hundredths(share)).join(', ');
  return [
    say(
      'sources-disagree',
      'published',
      `The drive mark covers ${cut}${hundredths(drive.length)} of the face. Manuals want a light mark to cover ${shares}, each for its own machine, and film and drag change it: length alone decides nothing.`,
      wanted.map(({ document }) => document),
    ),
  ];
}
