import { showText, type UnitSystem } from '../../basics/show.ts';
import { unitNamed } from '../../basics/units.ts';
import type { QuantityTyped } from '../../basics/recorded.ts';
import type { MeasuredResult } from '../../job/records/measurement.ts';
import { limitedQuantities } from '../../job/records/specSheet.ts';
import { isNone } from '../../basics/result.ts';
import type { CheckId } from '../../job/records/checkIds.ts';
import type { LimitJudged } from '../../job/checks/judge.ts';
import { limitBasisWords, limitWords, quantityWords } from '../words/limits.ts';
import { checkBrief } from '../words/answers.ts';
import { shapeOf, standingWords } from '../words/standing.ts';
import type { CertificateAssembly, CertificateCheck } from './content.ts';
import { dayText } from '../words/days.ts';
import { type Cell, cell, type TableBlock, wordColumn } from './page.ts';

/** The result that counts for a check, if it is of this kind. */
export function resultOf<Kind extends MeasuredResult['kind']>(
  assembly: CertificateAssembly | undefined,
  check: CheckId,
  kind: Kind,
): Extract<MeasuredResult, { kind: Kind }> | undefined {
  const result = assembly?.checks.find((one) => one.check === check)?.measurement?.result;
  return result?.kind === kind ? (result as Extract<MeasuredResult, { kind: Kind }>) : undefined;
}

/** The checks of an assembly in order: what was found, against what, how it stands and with what it was taken. */
export function checkTable(assembly: CertificateAssembly, system: UnitSystem): TableBlock {
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
    rows: shown.flatMap((check) => checkRows(check, system, () => [takenCell(check, assembly.at.slice(0, 10))])),
  };
}

/**
 * A check with limits for several quantities (backlash and its variation) has a row for each of them. `tail` gives the cells
 * behind its standing.
 */
export function checkRows(
  check: CertificateCheck,
  system: UnitSystem,
  tail: (limits: readonly LimitJudged[]) => readonly Cell[] = () => [],
): readonly (readonly Cell[])[] {
  const brief = check.measurement === undefined ? '–' : checkBrief(check.check, check.measurement.result, system);
  const limits = byQuantity(check.limits);
  if (limits.length < 2) {
    return [
      [
        cell(check.title),
        cell(brief),
        limitCell(limits[0] ?? [], system),
        standingCell(check),
        ...tail(limits[0] ?? []),
      ],
    ];
  }
  return limits.map((same, index) => [
    cell(index === 0 ? check.title : quantityWords[same[0].quantity]),
    cell(index === 0 ? brief : valueText(same[0], system)),
    limitCell(same, system),
    limitStanding(check, same[0]),
    ...tail(same),
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
const standingCell = (check: CertificateCheck): Cell => {
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
