import type { MakeUp } from '../../makeUp.ts';
import { isBound, type Mark } from '../mark.ts';
import { newSetRight } from '../right.ts';
import { heightPlace } from './height.ts';
import { hundredths, manuals, type Meaning, say, type SeenAt } from './sentence.ts';

/** The stretch along the face that is right for a new set: a light mark may lie to the toe. */
const [toeEnd, heelEnd] = newSetRight.heel;

/** Along the face comes second: it answers to both movements, and which way depends on the cut. */
export function alongFace({ drive }: SeenAt, makeUp: MakeUp): readonly Meaning[] {
  if (drive === undefined) return [];
  return [place(drive), ...ringGearWord(drive, makeUp), ...depthWord(drive, makeUp)];
}

const side = (mark: Mark): 'heel' | 'toe' | 'right' =>
  mark.heel > heelEnd ? 'heel' : mark.heel < toeEnd ? 'toe' : 'right';

/** Where it lies, or the one end that cuts off a mark whose visible part lies in its place. */
function leaning(mark: Mark): 'heel' | 'toe' | 'right' {
  const [toe, heel] = [mark.edges.toe !== 'clear', mark.edges.heel !== 'clear'];
  if (side(mark) !== 'right' || toe === heel) return side(mark);
  return heel ? 'heel' : 'toe';
}

function place(drive: Mark): Meaning {
  const much = `${hundredths(drive.heel)} of the face ${drive.heel > 0 ? 'to the heel' : 'to the toe'} of the middle`;
  const bound = isBound(drive, 'heel') ? ' An end of the tooth cuts it off, so it lies at least that far.' : '';
  if (side(drive) === 'heel') {
    return say(
      'along-face',
      'common-practice',
      `The drive mark lies ${much}. Under load it spreads farther to the heel, so a light mark should not begin there.${bound}`,
    );
  }
  if (side(drive) === 'toe')
    return say('along-face', 'common-practice', `The drive mark lies ${much}, farther than usual.${bound}`);
  return cutOff(drive) ?? inItsPlace;
}

const inItsPlace = say(
  'along-face',
  'published',
  'The drive mark lies in the middle or a little to the toe, as a mark rolled by hand should: it grows to the heel in service.',
  manuals.light,
);

/** A mark that an end of the tooth cuts off is not in its place, whatever its visible centre says. */
function cutOff(drive: Mark): Meaning | undefined {
  const [toe, heel] = [drive.edges.toe !== 'clear', drive.edges.heel !== 'clear'];
  if (toe && heel) {
    return say(
      'along-face',
      'derived',
      'The drive mark covers the face from toe to heel, so it does not say where along the face it lies: paint thinner, with less drag, to see.',
    );
  }
  if (!toe && !heel) return undefined;
  const end = heel ? 'heel' : 'toe';
  const hard = drive.edges[end] === 'hard' ? ' in a hard line' : '';
  return say(
    'along-face',
    'derived',
    `What is seen of the drive mark lies in the middle, but it runs off the ${end}${hard}: its true centre lies farther to the ${end}.`,
  );
}

/** The ring gear's word on the convex flank is agreed; on the concave one sources and geometry part. */
function ringGearWord(drive: Mark, { driveFlank, cut }: MakeUp): readonly Meaning[] {
  const where = leaning(drive);
  if (where === 'right') return [];
  const far = where === 'heel' ? 'too far away' : 'too close';
  if (driveFlank === 'convex') {
    return [
      say(
        'along-face',
        'published',
        `On the convex flank a mark at the ${where} goes with a ring gear ${far}.`,
        manuals.ringGear,
      ),
    ];
  }
  const hobbed =
    cut === 'face-hobbed'
      ? 'For a face-hobbed set shop charts and geometry say the opposite.'
      : 'Geometry finds the answer weak, and for a face-hobbed set the opposite.';
  return [
    say(
      'sources-disagree',
      'published',
      `The drive flank is the concave one. Manuals that do not tell the flanks apart say that a mark at the ${where} goes with a ring gear ${far}. ${hobbed} Let height decide first.`,
      manuals.ringGear,
    ),
  ];
}

/** What pinion depth does along the face: opposite in two manuals, explained by the cut. */
function depthWord(drive: Mark, { driveFlank, cut }: MakeUp): readonly Meaning[] {
  const off = heightPlace(drive) === 'high' || heightPlace(drive) === 'low';
  if (leaning(drive) === 'right' && !off) return [];
  if (cut === 'not-known') {
    return [
      say(
        'sources-disagree',
        'published',
        'How pinion depth moves the mark along the face depends on the cut, which is not known here; two manuals say the opposite of each other and neither names the cut. Go by height.',
        manuals.depthAlongFace,
      ),
    ];
  }
  const outGoesTo = (cut === 'face-milled') === (driveFlank === 'convex') ? 'heel' : 'toe';
  return [
    say(
      'along-face',
      'common-practice',
      `On a ${cut} set, taking the pinion out moves the mark on the ${driveFlank} flank to the ${outGoesTo} as well as up. Trade charts and geometry agree for usual cutters, but it can turn round with cutter and offset.`,
    ),
  ];
}
