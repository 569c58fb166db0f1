import { untelling, untellingSentence } from '../untelling.ts';
import { type Meaning, say, type SeenAt } from './sentence.ts';

/** A drive mark that tells nothing of where it lies: no sentence about depth or face may be hung on it. */
export function tellsNothing({ drive }: SeenAt): readonly Meaning[] {
  const kind = drive === undefined ? undefined : untelling(drive);
  if (drive === undefined || kind === undefined) return [];
  return [
    say('tells-nothing', 'common-practice', `${untellingSentence(kind, drive)} Paint it again before it is read.`),
  ];
}
