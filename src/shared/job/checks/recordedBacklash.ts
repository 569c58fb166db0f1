import { type Build, latest } from '../records/build.ts';
import { caseIsTight } from './caseTight.ts';
import { type Meaning, say } from '../../axle/mark/meaning/sentence.ts';

/**
 * Whether the backlash a used set was found with is its own. Loose case bearings let the ring gear swing away from the
 * pinion, and what is read then is their play as well; so the bench asks before that backlash becomes a target.
 */
export function recordedBacklash(build: Build): readonly Meaning[] {
  const asFound = build.assemblies.findLast(({ phase }) => phase === 'as-found');
  if (build.makeUp?.gearSet !== 'used' || asFound === undefined) return [];
  const backlash = latest(asFound, 'backlash');
  const tight = caseIsTight(latest(asFound, 'case-tight')?.result);
  if (backlash === undefined) {
    return [
      say(
        'used-set',
        'common-practice',
        'No backlash was recorded as found: the mark alone is the target, and the maker’s window.',
      ),
    ];
  }
  if (tight === undefined) {
    return [
      say(
        'used-set',
        'common-practice',
        'Were the case bearings without play when the backlash was read as found? Nobody has said; loose ones spoil it. Answer under as found, case bearings.',
      ),
    ];
  }
  if (tight) return [];
  return [
    say(
      'used-set',
      'common-practice',
      'The case bearings were loose as found, so the backlash recorded then holds their play too: go by the mark, not by that backlash.',
    ),
  ];
}
