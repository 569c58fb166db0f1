import { showDoubt, type UnitSystem } from '../../basics/show.ts';
import { isNone, type OrNone } from '../../basics/result.ts';
import { limitedQuantities } from '../../job/records/specSheet.ts';
import type { LimitJudged } from '../../job/checks/judge.ts';
import type { MeasuredResult } from '../../job/records/measurement.ts';
import { checkRows, resultOf } from './checkTable.ts';
import type { CertificateAssembly, CertificateCheck, CertificateContent } from './content.ts';
import { runoutBlocks, stationsAcross, torqueBlocks } from './figures.ts';
import { sheetHeld } from './limitChanges.ts';
import { type Block, type Cell, cell, figureColumn, heading, type TableBlock, words, wordColumn } from './page.ts';
import { type References, sourceCell, takenBy } from './references.ts';
import { sleeveBlocks } from './sleeve.ts';
import { makeUpTerms, ruleTerms } from './terms.ts';

/** What the first page rests on: every check of the last assembly, its stations, runout and torque. */
export function groundBlocks(
  content: CertificateContent,
  references: References,
  system: UnitSystem,
): readonly Block[] {
  const last = content.assemblies.at(-1);
  const axle =
    content.makeUp === undefined
      ? 'The axle has not been described.'
      : `${makeUpTerms(content.makeUp)
          .map(([, term]) => term)
          .join(' · ')}.`;
  if (last === undefined) return [heading(2, 'The axle'), words(axle, 'quiet')];
  const backlash = resultOf(last, 'backlash', 'backlash');
  return [
    heading(2, `What it rests on: ${last.name.toLowerCase()}`, axle),
    words(`${ruleTerms[content.rule]} ${doubtTerm}`, 'quiet'),
    ...(last.checks.length === 0
      ? [words('Nothing can be listed here: the axle has not been described.', 'quiet')]
      : [groundTable(last, references, system), ...confirmedWords(last)]),
    ...(backlash === undefined
      ? []
      : [heading(3, 'Backlash, station by station'), ...stationsAcross(sheetHeld(content, last), backlash, system)]),
    ...runoutBlocks(last, system),
    ...torqueBlocks(last, system),
    // A sleeve that was crushed too far is nothing for an appendix.
    ...sleeveBlocks(content, last, system),
  ];
}

const doubtTerm =
  '± U95 is the expanded uncertainty of a reading for about 95 % coverage, worked out from the gauge’s figures and from how well the readings repeat.';

function groundTable(last: CertificateAssembly, references: References, system: UnitSystem): TableBlock {
  const shown = last.checks.filter(
    (check) => !isConfirmed(check) && (check.needed === 'required' || check.measurement !== undefined),
  );
  return {
    kind: 'table',
    columns: [
      wordColumn('Check', 2.7),
      wordColumn('Result', 2.3),
      figureColumn('± U95'),
      wordColumn('Limit', 3.3),
      wordColumn('Standing', 2),
      figureColumn('Source'),
      wordColumn('Taken with', 2.3),
    ],
    rows: shown.flatMap((check) => withDoubt(check, last, references, system)),
  };
}

/** Looked at and answered with yes: that takes no row of its own. */
const isConfirmed = ({ measurement, standing, override }: CertificateCheck): boolean =>
  measurement?.result.kind === 'confirmed' && standing === 'within' && override === undefined;

function confirmedWords({ checks }: CertificateAssembly): readonly Block[] {
  const seen = checks.flatMap((check) =>
    isConfirmed(check) ? [`${check.title.toLowerCase()} (${check.measurement?.at.slice(11, 16)})`] : [],
  );
  return seen.length === 0 ? [] : [words(`Seen and confirmed: ${seen.join(', ')}.`)];
}

function withDoubt(
  check: CertificateCheck,
  last: CertificateAssembly,
  references: References,
  system: UnitSystem,
): readonly (readonly Cell[])[] {
  let doubt = cell('');
  const rows = checkRows(check, system, (limits) => {
    doubt = doubtCell(check, limits, system);
    return [doubt, sourceCell(references, limits), takenBy(references, check, last)];
  });
  return rows.map(([name, result, limit, standing, U95, source, taken]) =>
    [name, result, U95, limit, standing, source, taken].map((one) => one ?? cell('')),
  );
}

/** Of several stations the doubt of the one that decides; without a limit that of the result itself. */
function doubtCell(check: CertificateCheck, limits: readonly LimitJudged[], system: UnitSystem): Cell {
  const judged = limits.find(({ value, U95 }) => !isNone(value) && U95 > 0);
  if (judged !== undefined && !isNone(judged.value))
    return cell(showDoubt(judged.U95, { value: judged.value, dimension: limitedQuantities[judged.quantity], system }));
  const own = check.measurement === undefined ? undefined : doubtOf(check.measurement.result);
  return own === undefined || isNone(own.U95)
    ? cell('')
    : cell(showDoubt(own.U95, { value: own.U95, dimension: own.dimension, system }));
}

function doubtOf(
  result: MeasuredResult,
): { readonly U95: OrNone<number>; readonly dimension: 'length' | 'torque' } | undefined {
  if (result.kind === 'runout') return { U95: result.U95_mm, dimension: 'length' };
  if (result.kind === 'torque') return { U95: result.U95_Nm, dimension: 'torque' };
  const [first] = result.kind === 'backlash' ? result.stations : [];
  return first === undefined ? undefined : { U95: first.U95_mm, dimension: 'length' };
}
