import type { Assessed, Missing } from '../../job/certifying/missing.ts';
import { assemblyName } from '../../job/records/build.ts';
import type { Phase } from '../../job/records/checkIds.ts';
import type { Standing } from '../../job/checks/judge.ts';
import { noCase } from '../../basics/noCase.ts';

/** What is missing, in a sentence. */
export function missingWords(missing: Missing, assessed: readonly Assessed[]): string {
  switch (missing.what) {
    case 'description':
      return 'The axle has not been described.';
    case 'limits':
      return 'No limits have been entered.';
    case 'assembly':
      return absent[missing.phase];
    case 'check':
      return checkWords(missing, assessed);
    case 'apart-again':
      return 'The axle was taken apart again after its final assembly.';
    case 'mark-accepted':
      return 'Final: the mark has not been accepted.';
    default:
      throw noCase(missing);
  }
}

function checkWords(
  { assembly, check, standing }: Extract<Missing, { what: 'check' }>,
  assessed: readonly Assessed[],
): string {
  const found = assessed.find((one) => one.assembly.id === assembly);
  const title = found?.states.find((state) => state.check.id === check)?.check.title ?? check;
  const name = found === undefined ? 'An assembly' : assemblyName(found.assembly);
  return `${name}: ${title.toLowerCase()} – ${standingWords[standing]}.`;
}

const absent: Record<Phase, string> = {
  'as-found': 'Nothing was recorded before the axle was taken apart.',
  stripping: 'Nothing was recorded as the axle came apart.',
  trial: 'There was no trial assembly.',
  final: 'There is no final assembly.',
};

const standingWords: Record<Standing, string> = {
  within: 'within its limits',
  outside: 'outside its limits',
  'too-close': 'too close to its limit to call',
  'not-measured': 'not measured',
  'no-limit': 'measured, but no limit was entered',
  recorded: 'recorded',
};
