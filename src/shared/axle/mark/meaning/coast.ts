import type { MakeUp } from '../../makeUp.ts';
import type { Mark } from '../mark.ts';
import { heightPlace, middleOfHeight } from './height.ts';
import { hundredths, manuals, type Meaning, say, type SeenAt } from './sentence.ts';

/** Marks of the two flanks that lie this far apart in height have no shim in common: own choice, derived below. */
const tooFarApart = 0.3;

/** Coast beside drive: the drive side outranks it. */
export function coastBesideDrive({ drive, coast }: SeenAt, used: boolean): readonly Meaning[] {
  if (drive === undefined || coast === undefined) return [onlyOne(drive)];
  const between = coast.crown - drive.crown;
  const doubt = Math.hypot(drive.U95?.crown ?? 0, coast.U95?.crown ?? 0);
  const much = `${hundredths(between)} of the height ${between > 0 ? 'above' : 'below'}`;
  const agreement =
    Math.abs(between) <= Math.max(0.1, doubt)
      ? say(
          'agreement',
          'derived',
          'Drive and coast lie at about the same height: the two flanks agree about pinion depth.',
        )
      : say(
          'agreement',
          'derived',
          `The coast mark lies ${much} the drive mark. Pinion depth lifts or lowers both together, so both cannot be brought to the middle by it.`,
        );
  return used ? [agreement] : [...ranked(drive, coast), agreement];
}

const onlyOne = (drive: Mark | undefined): Meaning =>
  say(
    'coast',
    'common-practice',
    `Only the ${drive === undefined ? 'coast' : 'drive'} flank has been read. ${drive === undefined ? 'The drive side decides; read it too.' : 'Read the coast flank too: together they tell depth from the rest.'}`,
  );

function ranked(drive: Mark, coast: Mark): readonly Meaning[] {
  const [first, second] = [heightPlace(drive), heightPlace(coast)];
  if (first === 'middle' && (second === 'high' || second === 'low')) {
    return [
      say(
        'coast',
        'common-practice',
        `The coast mark is ${second} while the drive mark is centred. The drive side outranks it: leave coast unless a hard line can be avoided with drive still right.`,
      ),
      say(
        'sources-disagree',
        'published',
        'One manual says that coast comes right by itself once drive is right; geometry does not promise that.',
        manuals.driveFirst,
      ),
    ];
  }
  if (first === second && (first === 'high' || first === 'low')) {
    return [say('coast', 'published', `Coast says the same: ${first} on both flanks.`, manuals.height)];
  }
  return [say('coast', 'common-practice', 'Set the drive side first; it carries the load.')];
}

/** Marks that no shim will centre. */
export function farApart({ drive, coast }: SeenAt, { cut }: MakeUp): readonly Meaning[] {
  if (drive === undefined || coast === undefined) return [];
  const out: Meaning[] = [];
  const heights = drive.crown - coast.crown;
  if (Math.abs(heights) > tooFarApart && Math.sign(drive.crown) !== Math.sign(coast.crown)) {
    out.push(
      say(
        'beyond-shims',
        'derived',
        'One flank is marked high and the other low. Moving the pinion out or the ring gear away lifts the mark on both, so no shim brings these together: look for a mixed set, a wrong seat or a bent part before trying more.',
      ),
    );
  }
  const centred = Math.abs(drive.crown) < middleOfHeight && Math.abs(coast.crown) < middleOfHeight;
  if (centred && Math.abs(drive.heel - coast.heel) > 0.35 && Math.sign(drive.heel) !== Math.sign(coast.heel)) {
    const hobbed =
      cut === 'face-hobbed'
        ? ' On a face-hobbed set the ring gear too moves the flanks apart along the face, so try that first.'
        : '';
    out.push(
      say(
        'beyond-shims',
        'common-practice',
        `Height is right, yet one flank is marked at the toe and the other at the heel: axes that do not stand as they should, or a faulty set. Shims may not cure it.${hobbed}`,
      ),
    );
  }
  return out;
}
