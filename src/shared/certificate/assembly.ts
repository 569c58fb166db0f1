import { limitedQuantities } from '../records/specSheet.ts';
import type { QuantityTyped } from '../records/common.ts';
import { unitNamed } from '../quantities/units.ts';
import type { MeasuredResult } from '../records/measurement.ts';
import type { Measurement } from '../records/build.ts';
import { showText, type UnitSystem } from '../quantities/show.ts';
import { isNone } from '../result.ts';
import { checkIds, type CheckId } from '../setup/checkIds.ts';
import { checkOf } from '../setup/checks.ts';
import type { LimitJudged } from '../setup/judge.ts';
import { limitBasisWords, limitWords, quantityWords } from '../words/limits.ts';
import { resultBrief } from '../words/results.ts';
import { shapeOf, standingSentence, standingWords } from '../words/standing.ts';
import type { CertificateAssembly, CertificateCheck, CertificateContent } from './content.ts';
import { dayText, timeText } from './days.ts';
import { flanksPicture, ringPicture } from './drawings.ts';
import { torqueBlocks, runoutBlocks, stationTable } from './figures.ts';
import { type Block, type Cell, cell, heading, list, words, wordColumn, type WordsBlock } from './page.ts';
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
    ...runoutBlocks(ownOf(assembly), system),
    ...torqueBlocks(ownOf(assembly), system),
    ...markBlocks(content, assembly),
  ];
}

/** What carries over from a trial has its details there. */
const ownOf = (assembly: CertificateAssembly): CertificateAssembly => ({
  ...assembly,
  checks: assembly.checks.filter(({ carriedFrom }) => carriedFrom === undefined),
});

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
      wordColumn('Result', 2.8),
      wordColumn('Limit', 3.3),
      wordColumn('Standing', 2.5),
      wordColumn('Taken with', 3.6),
    ],
    rows: shown.flatMap((check) => checkRows(check, system, assembly.at.slice(0, 10))),
  };
}

/** A check with limits for several quantities (backlash and its variation) has a row for each of them. */
export function checkRows(
  check: CertificateCheck,
  system: UnitSystem,
  day = check.measurement?.at.slice(0, 10),
): readonly (readonly Cell[])[] {
  const brief = check.measurement === undefined ? '–' : resultBrief(check.measurement.result, system);
  const limits = byQuantity(check.limits);
  const taken = takenCell(check, day);
  if (limits.length < 2) {
    return [[cell(check.title), cell(brief), limitCell(limits[0] ?? [], system), standingCell(check), taken]];
  }
  return limits.map((same, index) => [
    cell(index === 0 ? check.title : quantityWords[same[0].quantity]),
    cell(index === 0 ? brief : valueText(same[0], system)),
    limitCell(same, system),
    limitStanding(check, same[0]),
    taken,
  ]);
}

type Same = readonly [LimitJudged, ...(readonly LimitJudged[])];

/** Limits of one quantity together: a rotating torque may have one for each state it is read in. */
function byQuantity(limits: readonly LimitJudged[]): readonly Same[] {
  const groups = new Map<string, readonly [LimitJudged, ...LimitJudged[]]>();
  for (const limit of limits) {
    const group = groups.get(limit.quantity);
    groups.set(limit.quantity, group === undefined ? [limit] : [...group, limit]);
  }
  return [...groups.values()];
}

function limitCell(limits: readonly LimitJudged[], system: UnitSystem): Cell {
  const [first, ...more] = limits;
  if (first === undefined) return cell('–');
  if (limits.every(({ otherBasis }) => otherBasis === true)) return cell('none for this state');
  if (more.length > 0)
    return cell(limits.map(({ limit }) => limitWords(limit, system)).join('\n'), { under: 'by state' });
  const basis = limitBasisWords(first.limit);
  return cell(limitWords(first.limit, system), basis === '' ? {} : { under: basis });
}

const valueText = ({ value, quantity }: LimitJudged, system: UnitSystem): string =>
  isNone(value) ? '–' : showText(value, limitedQuantities[quantity], system);

/** What an override covers stays readable beneath it. */
export const standingCell = (check: CertificateCheck): Cell => {
  const { override: _, ...judged } = check;
  return check.override === undefined
    ? cell(standingWords(check), { shape: shapeOf(check) })
    : cell('overridden', { shape: 'overridden', under: standingWords(judged) });
};

function limitStanding(check: CertificateCheck, limit: LimitJudged): Cell {
  const { override, why: _, ...rest } = check;
  const judged = { ...rest, standing: limit.verdict, closeCall: limit.closeCall, limits: [limit] };
  return standingCell(override === undefined || limit.verdict === 'within' ? judged : { ...judged, override });
}

/** With what it was taken, and when: the day only where it is not that of the assembly, the trial where it carries over. */
function takenCell({ measurement, carriedFrom }: CertificateCheck, day: string | undefined): Cell {
  if (measurement === undefined) return cell('–');
  const { how, at } = measurement;
  const time = at.slice(0, 10) === day ? at.slice(11, 16) : `${dayText(at)}, ${at.slice(11, 16)}`;
  const when = carriedFrom === undefined ? time : `${carriedFrom}, ${time}`;
  if (how.kind === 'typed')
    return cell(`typed: ${how.tool}`, { under: `reads to ${asEntered(how.resolution)} · ${when}` });
  return cell(how.kind === 'seen' ? 'seen' : how.gauge.label, { under: when });
}

/** A quantity as somebody typed it: a tool that reads to 0.0005 in does so whatever the certificate's units. */
export const asEntered = ({ value, unit }: QuantityTyped): string => `${value} ${unitNamed(unit)?.symbol ?? unit}`;

const notAsked = (assembly: CertificateAssembly): readonly Block[] => {
  const left = assembly.checks.filter((check) => check.needed === 'optional' && check.measurement === undefined);
  if (left.length === 0) return [];
  return [words(`Optional and not measured: ${left.map(({ title }) => title.toLowerCase()).join(', ')}.`, 'quiet')];
};

/** Every check that is outside, too close to call or has a reason to tell, in a sentence with its number. */
function remarks(assembly: CertificateAssembly, system: UnitSystem): readonly string[] {
  return ownOf(assembly).checks.flatMap((check) => {
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
  const table = [...stationTable(content, backlash, system), ...carriedRunout(assembly)];
  const beside = picture !== undefined && backlash.stations.length <= besideAtMost;
  return [
    heading(3, 'Backlash, station by station'),
    ...(beside
      ? [{ kind: 'beside', picture, share: 0.46, right: table } as const]
      : [...(picture === undefined ? [] : [{ ...picture, across: 0.62 }]), ...table]),
  ];
}

/** The ring shows a runout that was taken in a trial and is not taken again. */
function carriedRunout({ checks }: CertificateAssembly): readonly WordsBlock[] {
  const from = checks.find(({ check }) => check === 'ring-gear-runout')?.carriedFrom;
  return from === undefined ? [] : [words(`The runout in the drawing was measured in ${from.toLowerCase()}.`, 'quiet')];
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
  const said = `The technician’s judgement: ${judgement}.${compound}${thin}`;
  return [
    heading(3, 'Mark on the teeth'),
    ...(picture === undefined ? [words(said, 'quiet')] : [{ ...picture, caption: said }]),
  ];
}
