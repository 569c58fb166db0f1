import { isBound, type Mark } from '../mark.ts';
import { newSetRight, usedSetNear } from '../right.ts';
import { hundredths, manuals, type Meaning, say, type SeenAt } from './sentence.ts';

/** Half-width of the middle of the height for a new set that is right. */
export const [, middleOfHeight] = newSetRight.crown;

/** Where a mark lies in height, with what reading it can tell. */
type HeightPlace = 'high' | 'low' | 'middle' | 'near-high' | 'near-low';

export function heightPlace(mark: Mark): HeightPlace {
  const doubt = mark.U95?.crown ?? 0;
  const beyond = Math.abs(mark.crown) - middleOfHeight;
  const side = mark.crown > 0 ? 'high' : 'low';
  if (beyond <= 0) return 'middle';
  return beyond <= doubt ? `near-${side}` : side;
}

/** Height comes first: it answers to pinion depth the same way on both flanks and for every cut. */
export function height({ drive }: SeenAt, used: boolean, own?: Mark): readonly Meaning[] {
  if (drive === undefined) return [];
  if (!used) return [ofNew(drive)];
  return [own === undefined ? ofUsed(drive) : besideOwn(drive, own)];
}

function ofNew(drive: Mark): Meaning {
  const place = heightPlace(drive);
  const much = `${hundredths(drive.crown)} of its height ${drive.crown > 0 ? 'above' : 'below'} the middle`;
  const bound = isBound(drive, 'crown') ? ' An edge cuts it off, so it lies at least that far.' : '';
  const end = cutOffAt(drive);
  const line = end !== undefined && drive.edges[end] === 'hard' ? ' in a hard line' : '';
  if (place === 'middle' && end !== undefined) {
    return say(
      'height',
      'derived',
      `What is seen of the drive mark lies in the middle, but the ${end} cuts it off${line}: its true centre lies ${end === 'crown' ? 'higher, and the pinion may be too far out' : 'lower, and the pinion may be too deep'}.`,
    );
  }
  if (place === 'middle' && bothCut(drive)) {
    return say(
      'height',
      'derived',
      'The drive mark reaches both crown and root, so its height says nothing of the pinion’s depth: paint thinner to see.',
    );
  }
  if (place === 'middle') {
    return say(
      'height',
      'published',
      'The drive mark is centred between crown and root: the pinion’s depth is about right.',
      manuals.height,
    );
  }
  if (place === 'near-high' || place === 'near-low') {
    return say('height', 'derived', `The drive mark lies ${much}: too close to the end of the middle to call.${bound}`);
  }
  return place === 'high'
    ? say(
        'height',
        'published',
        `The drive mark is too high, ${much}: the pinion is too far out.${bound}`,
        manuals.height,
      )
    : say('height', 'published', `The drive mark is too low, ${much}: the pinion is too deep.${bound}`, manuals.height);
}

/**
 * The end at which alone a mark is cut off, where it lies to that side or ends there in a hard line: its centre says
 * least there, and no hard line is where a mark belongs.
 */
function cutOffAt(mark: Mark): 'crown' | 'root' | undefined {
  if (!isBound(mark, 'crown') || bothCut(mark)) return undefined;
  const end = mark.edges.crown === 'clear' ? 'root' : 'crown';
  if (mark.edges[end] === 'hard') return end;
  return (end === 'crown') === mark.crown > 0 && Math.abs(mark.crown) > nearMiddle ? end : undefined;
}

/** Nearer than this the centre of a cut mark could still be anywhere in the middle: own choice, half its half-width. */
const nearMiddle = middleOfHeight / 2;

const bothCut = ({ edges }: Mark): boolean => edges.crown !== 'clear' && edges.root !== 'clear';

/** A used set's height counts from its own mark, wherever that lies: so does the plan. */
function besideOwn(drive: Mark, own: Mark): Meaning {
  const by = drive.crown - own.crown;
  const doubt = Math.max(usedSetNear.crown, Math.hypot(drive.U95?.crown ?? 0, own.U95?.crown ?? 0));
  if (Math.abs(by) <= doubt) {
    const middle = heightPlace(drive) === 'middle' ? '' : ' That it is not the middle of the tooth is no fault.';
    return say('height', 'derived', `The drive mark is at the height where this set ran.${middle}`);
  }
  const [way, pinion] = by > 0 ? ['higher', 'farther out'] : ['lower', 'deeper'];
  const centred = heightPlace(drive) === 'middle' ? ' Lying in the middle of the tooth is no merit by itself.' : '';
  return say(
    'height',
    'published',
    `The drive mark lies ${hundredths(by)} of its height ${way} than where this set ran: the pinion stands ${pinion} than it did.${centred}`,
    manuals.height,
  );
}

const ofUsed = (drive: Mark): Meaning =>
  say(
    'height',
    'common-practice',
    heightPlace(drive) === 'middle'
      ? 'The drive mark is centred in height. On a set that has run, that is no merit by itself: it has to lie where it lay before.'
      : `The drive mark lies ${drive.crown > 0 ? 'high' : 'low'} on the tooth. On a set that has run, that is no fault by itself: it has to lie where it lay before.`,
  );
