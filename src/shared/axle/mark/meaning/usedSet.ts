import type { MakeUp } from '../../makeUp.ts';
import { compareMarks } from '../compare.ts';
import type { Mark } from '../mark.ts';
import { usedSetNear } from '../right.ts';
import { hundredths, type Meaning, say, type SeenAt } from './sentence.ts';

/** A set that has run has its own place, and has to find it again. */
export function usedSet(
  seen: SeenAt,
  asFound: { readonly drive?: Mark; readonly coast?: Mark } | undefined,
  _makeUp: MakeUp,
): readonly Meaning[] {
  const rule = say(
    'used-set',
    'common-practice',
    'Gears that have run more than about 300 to 500 miles have worn to each other: they must repeat their own mark, wherever it lies.',
  );
  const worn = say(
    'worn-drive',
    'common-practice',
    'The drive flank of a used set may be worn so far that coast tells depth better. Trade sources differ: some go by drive here too.',
  );
  if (asFound?.drive === undefined && asFound?.coast === undefined) {
    return [
      rule,
      say(
        'used-set',
        'common-practice',
        'No mark was recorded before the axle came apart, so there is none to repeat: look for the old wear on the teeth and match that.',
      ),
      worn,
    ];
  }
  return [...beside('drive', seen.drive, asFound.drive), ...beside('coast', seen.coast, asFound.coast), rule, worn];
}

function beside(flank: 'drive' | 'coast', now: Mark | undefined, own: Mark | undefined): readonly Meaning[] {
  if (now === undefined || own === undefined) return [];
  const { heel, crown, overlap, warnings } = compareMarks(now, own);
  const near = (['heel', 'crown'] as const).every((along) => {
    const one = along === 'heel' ? heel : crown;
    return Math.abs(one.by) <= Math.max(usedSetNear[along], one.U95);
  });
  const share = `The two overlap by ${Math.round(100 * overlap)} %.`;
  const text = near
    ? `The ${flank} mark lies where it lay before, as far as reading can tell. ${share}`
    : `The ${flank} mark has moved from its own place: ${movedWords(crown.by, heel.by)}. ${share}`;
  return [say('used-set', 'derived', [text, ...warnings].join(' '))];
}

/** Both ways, without one in which it stayed. */
const movedWords = (crown: number, heel: number): string =>
  [
    ...(stayed(crown) ? [] : [moved(crown, 'of the height', 'up', 'down')]),
    ...(stayed(heel) ? [] : [moved(heel, 'of the face', 'to the heel', 'to the toe')]),
  ].join(', ');

const stayed = (by: number): boolean => Math.round(100 * Math.abs(by)) === 0;

const moved = (by: number, of: string, plus: string, minus: string): string =>
  `${hundredths(by)} ${of} ${by >= 0 ? plus : minus}`;
