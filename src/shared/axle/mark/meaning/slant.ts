import type { MakeUp } from '../../makeUp.ts';
import { type Meaning, say, type SeenAt } from './sentence.ts';

/** Slants smaller than this are not worth a word; own choice. */
const level_deg = 5;

/** A slanted mark: normal on one cut, a remark on the other. */
export function slant({ drive, coast }: SeenAt, { cut }: MakeUp): readonly Meaning[] {
  const slants = [drive, coast].flatMap((mark) => (mark === undefined ? [] : [mark.slant_deg]));
  const steepest = Math.max(0, ...slants.map(Math.abs));
  if (steepest < level_deg) return [];
  if (cut === 'face-hobbed') {
    return [
      say('slant', 'common-practice', 'The mark is slanted, which is normal for a face-hobbed set: do not chase it.'),
    ];
  }
  if (cut === 'face-milled') {
    return [
      say(
        'slant',
        'common-practice',
        'The mark is slanted. Marks of face-milled sets are usually squarer; no shim takes a slant out.',
      ),
    ];
  }
  return [
    say(
      'slant',
      'common-practice',
      'The mark is slanted. That is normal for a face-hobbed set; whether this is one is not known. No shim takes a slant out.',
    ),
  ];
}
