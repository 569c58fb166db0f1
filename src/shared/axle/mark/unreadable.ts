import type { Problem } from '../../basics/result.ts';

/** Why a photo gives no mark. */
export type Unreadable =
  | 'corners'
  | 'too-small'
  | 'too-flat'
  | 'outside-photo'
  | 'out-of-focus'
  | 'glare'
  | 'too-dark'
  | 'no-mark'
  | 'no-compound'
  | 'smeared'
  | 'shadow'
  | 'not-outlined';

const words: Readonly<Record<Unreadable, readonly [sentence: string, remedy: string]>> = {
  corners: [
    'The four corners do not go round a flank.',
    'Tap toe-root, toe-crown, heel-crown and heel-root in this order.',
  ],
  'too-small': [
    'The flank is too small in the photo to be read.',
    'Go closer, so that the tooth fills half the picture.',
  ],
  'too-flat': [
    'The flank is seen too flat to be read: it looks less than a ninth as high as it is long.',
    'Take it more from before the flank, or bend its edges by hand where they run.',
  ],
  'outside-photo': ['Part of the flank lies outside the photo.', 'Take the whole flank into the picture.'],
  'out-of-focus': [
    'The photo is out of focus.',
    'Hold the camera still, let it focus on the tooth, and take it again.',
  ],
  glare: ['Mirrored light hides too much of the flank.', 'Turn the lamp or the camera aside and take it again.'],
  'too-dark': ['The photo is too dark to be read.', 'Put a lamp to one side of the tooth and take it again.'],
  'no-mark': [
    'No mark stands out from the compound.',
    'Roll the gears under drag in both directions, or draw the mark by hand.',
  ],
  'no-compound': ['No compound is seen around a mark.', 'Paint the flank evenly and thinly, and roll again.'],
  shadow: [
    'One end of the flank is dark over its whole height: in a compound without colour, shadow and mark look alike.',
    'Light the whole tooth evenly and take it again, or draw the mark by hand.',
  ],
  'not-outlined': ['Nothing is outlined yet.', 'Paint where the mark lies, or go round it in a ring.'],
  smeared: [
    'The compound is smeared: what is bare has no shape of its own.',
    'Wipe the teeth, paint thinly, turn fewer times, or draw the mark by hand.',
  ],
};

/** The problem for a person: what is wrong with the photo and what to do about it. */
export function unreadable(kind: Unreadable): Problem<Unreadable> {
  const [sentence, remedy] = words[kind];
  return { kind, sentence, remedy, ...(kind === 'corners' ? { field: 'corners' } : {}) };
}
