import { limitedQuantities, type Limit } from '../records/specSheet.ts';
import type { How, MeasuredResult } from '../records/measurement.ts';
import type { Measurement } from '../records/build.ts';
import { showText, type UnitSystem } from '../quantities/show.ts';
import { isNone } from '../result.ts';
import { checkIds, type CheckId } from '../setup/checkIds.ts';
import { checkOf } from '../setup/checks.ts';
import type { LimitJudged } from '../setup/judge.ts';
import { limitBasisWords, limitWords, quantityWords } from '../words/limits.ts';
import { resultBrief, typedText } from '../words/results.ts';
import { shapeOf, standingSentence, standingWords } from '../words/standing.ts';
import type { CertificateAssembly, CertificateCheck, CertificateContent } from './content.ts';
import { dayText, timeText } from './days.ts';
import { flanksPicture, ringPicture } from './drawings.ts';
import { torqueBlocks, runoutBlocks, stationTable } from './figures.ts';
import { type Block, type Cell, cell, heading, list, words, wordColumn } from './page.ts';
import { bearingTerms } from './terms.ts';

/** The result that counts for a check, if it is of this kind. */
export function resultOf<Kind extends MeasuredResult['kind']>(
  assembly: CertificateAssembly | undefined,
  check: CheckId,
  kind: Kind,
): Extract<MeasuredResult, { kind: Kind }> | undefined {
  const result = assembly?.checks.find((one) => one.check === check)?.measurement?.result;
  return result?.kind === kind ? (result as Extract<MeasuredResult, { kind: Kind }>) : undefined;
}

/** One assembly: what was checked, the stations, runout, torque, marks, and what has to be said about them. */
export function assemblyBlocks(
  content: CertificateContent,
  assembly: CertificateAssembly,
  system: UnitSystem,
): readonly Block[] {
  return [
    heading(2, assembly.name, assemblyFacts(assembly)),
    ...(assembly.checks.length === 0
      ? [words('Nothing can be listed here: the axle has not been described.', 'quiet')]
      : [checkTable(assembly, system)]),
    ...notAsked(assembly),
    ...titled('To be noted', list(remarks(assembly, system))),
    ...titled('Overridden, with the reason given', list(overrideWords(assembly))),
    ...backlashBlocks(content, assembly, system),
    ...runoutBlocks(assembly, system),
    ...torqueBlocks(assembly, system),
    ...markBlocks(content, assembly),
  ];
}

const titled = (title: string, blocks: readonly Block[]): readonly Block[] =>
  blocks.length === 0 ? [] : [heading(3, title), ...blocks];

export const assemblyFacts = (assembly: CertificateAssembly): string =>
  [
    `put together ${timeText(assembly.at)}`,
    bearingTerms[assembly.bearings],
    `seal ${assembly.seal}`,
    assembly.sleeve ? 'sleeve or spacer in' : 'no sleeve',
  ].join(' · ');

function checkTable(assembly: CertificateAssembly, system: UnitSystem): Block {
  const shown = assembly.checks.filter((check) => check.needed === 'required' || check.measurement !== undefined);
  return {
    kind: 'table',
    columns: [
      wordColumn('Check', 3),
      wordColumn('Result', 3),
      wordColumn('Limit', 3),
      wordColumn('Standing', 2.6),
      wordColumn('Taken with', 3.4),
    ],
    rows: shown.flatMap((check) => checkRows(check, system)),
  };
}

/** A check with several limits (backlash and its variation) has a row for each. */
export function checkRows(check: CertificateCheck, system: UnitSystem): readonly (readonly Cell[])[] {
  const [first, ...more] = check.limits;
  const row = (title: string, value: string, limit: LimitJudged | undefined, state: Cell): readonly Cell[] => [
    cell(title),
    cell(value),
    limit === undefined ? cell('–') : limitCell(limit.limit, system),
    state,
    takenCell(check.measurement),
  ];
  const brief = check.measurement === undefined ? '–' : resultBrief(check.measurement.result, system);
  return [
    row(check.title, brief, first, more.length === 0 ? standingCell(check) : limitStanding(check, first)),
    ...more.map((limit) =>
      row(quantityWords[limit.quantity], valueText(limit, system), limit, limitStanding(check, limit)),
    ),
  ];
}

const limitCell = (limit: Limit, system: UnitSystem): Cell => {
  const basis = limitBasisWords(limit);
  return cell(limitWords(limit, system), basis === '' ? {} : { under: basis });
};

const valueText = ({ value, quantity }: LimitJudged, system: UnitSystem): string =>
  isNone(value) ? '–' : showText(value, limitedQuantities[quantity], system);

/** What an override covers stays readable beneath it. */
export const standingCell = (check: CertificateCheck): Cell => {
  const { override: _, ...judged } = check;
  return check.override === undefined
    ? cell(standingWords(check), { shape: shapeOf(check) })
    : cell('overridden', { shape: 'overridden', under: standingWords(judged) });
};

function limitStanding(check: CertificateCheck, limit: LimitJudged | undefined): Cell {
  if (limit === undefined) return standingCell(check);
  const judged = { standing: limit.verdict, closeCall: limit.closeCall, limits: [limit] };
  const cause = limit.verdict === 'within' ? undefined : check.override;
  return standingCell({ ...check, ...judged, override: cause } as CertificateCheck);
}

function takenCell(measurement: Measurement | undefined): Cell {
  if (measurement === undefined) return cell('–');
  return cell(takenWords(measurement.how), { under: `${dayText(measurement.at)}, ${measurement.at.slice(11, 16)}` });
}

/** With what it was taken; a reading that was typed in says so. */
export function takenWords(how: How): string {
  if (how.kind === 'seen') return 'seen';
  if (how.kind === 'streamed') return how.gauge.label;
  return `typed: ${how.tool}, reads to ${asEntered(how.resolution)}`;
}

/** A tool's resolution in its own unit: 0.0005 in stays that, whatever the certificate's units. */
export const asEntered = (typed: { readonly value: number; readonly unit: string }): string =>
  typedText(typed, typed.unit.startsWith('[') ? 'inch' : 'metric');

const notAsked = (assembly: CertificateAssembly): readonly Block[] => {
  const left = assembly.checks.filter((check) => check.needed === 'optional' && check.measurement === undefined);
  if (left.length === 0) return [];
  return [words(`Optional and not measured: ${left.map(({ title }) => title.toLowerCase()).join(', ')}.`, 'quiet')];
};

/** Every check that is outside, too close to call or has a reason to tell, in a sentence with its number. */
function remarks(assembly: CertificateAssembly, system: UnitSystem): readonly string[] {
  return assembly.checks.flatMap((check) => {
    if (check.measurement === undefined) return [];
    const told =
      check.standing === 'outside' || check.closeCall || check.why !== undefined || check.standing === 'no-limit';
    const earlier = check.earlier === 0 ? [] : [earlierWords(check)];
    return [...(told ? [sentenceOf(check, check.measurement, system)] : []), ...noteOf(check), ...earlier];
  });
}

function sentenceOf(check: CertificateCheck, measurement: Measurement, system: UnitSystem): string {
  const id = checkIds.find((one) => one === check.check);
  if (id === undefined) return `${check.title}.`;
  const { override: _, ...plain } = check;
  return standingSentence({ ...plain, check: checkOf(id), inTheWay: false }, measurement, system);
}

const earlierWords = ({ title, earlier }: CertificateCheck): string =>
  `${title}: ${earlier === 1 ? 'one earlier measurement is' : `${earlier} earlier measurements are`} kept in the attached data; the last one counts.`;

function noteOf({ title, measurement }: CertificateCheck): readonly string[] {
  const result = measurement?.result;
  const note = result?.kind === 'confirmed' || result?.kind === 'mark' ? result.note : undefined;
  return note === undefined || note === '' ? [] : [`${title}: ${note}`];
}

const overrideWords = (assembly: CertificateAssembly): readonly string[] =>
  assembly.checks.flatMap(({ title, override }) =>
    override === undefined ? [] : [`${title}: ${override.reason} (${override.by}, ${timeText(override.at)})`],
  );

function backlashBlocks(
  content: CertificateContent,
  assembly: CertificateAssembly,
  system: UnitSystem,
): readonly Block[] {
  const backlash = resultOf(assembly, 'backlash', 'backlash');
  if (backlash === undefined) return [];
  const picture = ringPicture(content, backlash, resultOf(assembly, 'ring-gear-runout', 'runout'), system);
  const table = stationTable(content, backlash, system);
  const beside = picture !== undefined && backlash.stations.length <= besideAtMost;
  return [
    heading(3, 'Backlash, station by station'),
    ...(beside
      ? [{ kind: 'beside', picture, share: 0.46, right: table } as const]
      : [...(picture === undefined ? [] : [picture]), ...table]),
  ];
}

/** More stations than this and the table gets the whole width, under the ring. */
const besideAtMost = 14;

function markBlocks(content: CertificateContent, assembly: CertificateAssembly): readonly Block[] {
  const mark = resultOf(assembly, 'mark', 'mark');
  if (mark === undefined) return [];
  const first = content.assemblies.find(({ phase }) => phase === 'as-found');
  const found = first === assembly ? undefined : resultOf(first, 'mark', 'mark');
  const picture = flanksPicture(content.makeUp, mark, found);
  const judgement = { accepted: 'accepted', change: 'asks for a change', recorded: 'recorded' }[mark.judgement];
  const compound = mark.compound === undefined || mark.compound === '' ? '' : ` Compound: ${mark.compound}.`;
  const thin = found === undefined ? '' : ' The thin line is the mark as found.';
  return [
    heading(3, 'Mark on the teeth'),
    ...(picture === undefined ? [] : [picture]),
    words(`The technician’s judgement: ${judgement}.${compound}${thin}`, 'quiet'),
  ];
}
