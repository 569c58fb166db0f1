import type { CheckId } from '../../job/records/checkIds.ts';
import type { MeasuredResult } from '../../job/records/measurement.ts';
import type { How } from '../../job/records/measurement.ts';
import type { UnitSystem } from '../../basics/show.ts';
import { confirmedDetails, resultBrief } from './results.ts';

interface Answers {
  readonly yes: string;
  readonly no: string;
}

/**
 * What somebody found, in place of a yes and a no: of "Case bearings without play" nobody can tell whether a no means
 * that there is no play or that it is not without.
 */
const answers: Readonly<Partial<Record<CheckId, Answers>>> = {
  'case-tight': { yes: 'No play felt', no: 'It has play' },
  'caps-marked': { yes: 'They are marked', no: 'Not marked' },
  'sleeve-new': { yes: 'Both are new', no: 'Not new' },
  'adjuster-locks': { yes: 'Both are in place', no: 'Not in place' },
  'nut-locked': { yes: 'It is locked', no: 'Not locked' },
  'bolts-locked': { yes: 'All are locked', no: 'Not all locked' },
  'pins-and-clips': { yes: 'All in place', no: 'Not all in place' },
  'differential-works': { yes: 'It works', no: 'It does not work' },
  oil: { yes: 'It is filled', no: 'Not filled' },
};

const plain: Answers = { yes: 'Yes, I have seen it', no: 'No' };

/** What is said to a check that is looked at or felt: where it is as it should be, and where it is not. */
export const answersOf = (check: CheckId): Answers => answers[check] ?? plain;

/** The result of a check in the few characters a line of the job has room for, an answer in the words it was given. */
export function checkBrief(check: CheckId, result: MeasuredResult, system: UnitSystem, how?: How): string {
  if (result.kind !== 'confirmed' || answers[check] === undefined) return resultBrief(result, system, how);
  const { yes, no } = answersOf(check);
  const found = result.yes ? yes : no;
  return [`${found.charAt(0).toLowerCase()}${found.slice(1)}`, ...confirmedDetails(result)].join(', ');
}
