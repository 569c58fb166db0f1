import type { UnitSystem } from '../../basics/show.ts';
import type { QuantityTyped } from '../../basics/recorded.ts';
import type { ShimPack } from '../../job/records/measurement.ts';
import { shimPlacesOf } from '../../axle/makeUp.ts';
import type { Limit } from '../../job/records/specSheet.ts';
import { limitBasisWords, limitWords, quantityWords } from '../words/limits.ts';
import { resultBrief, typedText } from '../words/results.ts';
import { asEntered, resultOf } from './checkTable.ts';
import type { CertificateAssembly, CertificateContent } from './content.ts';
import { type Block, type Cell, cell, figureColumn, heading, words, wordColumn } from './page.ts';
import { limitChangeBlocks } from './limitChanges.ts';
import { makeUpTerms, placeTerms, ruleTerms } from './terms.ts';

/** The axle as described, and the limits with their sources. */
export function axleBlocks(content: CertificateContent, system: UnitSystem): readonly Block[] {
  const { makeUp, specSheet } = content;
  return [
    heading(2, 'The axle'),
    makeUp === undefined
      ? words('It has not been described.', 'quiet')
      : {
          kind: 'table',
          columns: [wordColumn('Part', 0), wordColumn('Make-up')],
          rows: makeUpTerms(makeUp).map((row) => row.map((text) => cell(text))),
        },
    heading(2, 'Limits, and where they come from', specSheet?.name),
    ...(specSheet === undefined
      ? [words('No limits have been entered.', 'quiet')]
      : [limitTable(specSheet.limits, system)]),
    words(`Rule: ${ruleTerms[content.rule]}`, 'quiet'),
    ...limitChangeBlocks(content, system),
    ...(specSheet?.note === undefined || specSheet.note === '' ? [] : [words(specSheet.note)]),
  ];
}

const limitTable = (limits: readonly Limit[], system: UnitSystem): Block => ({
  kind: 'table',
  columns: [wordColumn('Quantity', 3), wordColumn('Limit', 3), wordColumn('Source, as typed in', 4)],
  rows: limits.map((limit) => limitRow(limit, system)),
});

function limitRow(limit: Limit, system: UnitSystem): readonly Cell[] {
  const basis = limitBasisWords(limit);
  const entered = enteredOtherwise(limit, system);
  return [
    cell(quantityWords[limit.quantity], basis === '' ? {} : { under: basis }),
    cell(limitWords(limit, system), entered === undefined ? {} : { under: `entered as ${entered}` }),
    cell(limit.source),
  ];
}

/** A limit that was typed in the other unit is shown as it was typed too: converting it rounds it. */
function enteredOtherwise(limit: Limit, system: UnitSystem): string | undefined {
  const ends = [limit.min, limit.max].filter((end) => end !== undefined);
  return ends.some((end) => systemOf(end) !== system) ? ends.map(asEntered).join(' to ') : undefined;
}

/** UCUM writes customary units in brackets. */
const systemOf = ({ unit }: QuantityTyped): UnitSystem => (unit.startsWith('[') ? 'inch' : 'metric');

/** Which shims stood where in each assembly, and the backlash they gave. */
export function shimBlocks(content: CertificateContent, system: UnitSystem): readonly Block[] {
  const { makeUp, assemblies } = content;
  if (makeUp === undefined || assemblies.length === 0) return [];
  const places = shimPlacesOf(makeUp);
  const found = assemblies.flatMap((assembly) => resultOf(assembly, 'shims', 'shims')?.packs ?? []);
  const shown = [...places, ...found.map(({ place }) => place).filter((place) => !places.includes(place))];
  const columns = [...new Set(shown)];
  return [
    heading(2, 'Shims by place', 'measured packs as clamped, beneath them each shim'),
    {
      kind: 'table',
      columns: [
        wordColumn('Assembly', 2),
        ...columns.map((place) => figureColumn(placeTerms[place], 2)),
        figureColumn('Backlash', 2),
      ],
      rows: assemblies.map((assembly) => [
        cell(assembly.name),
        ...columns.map((place) => packCell(assembly, place, system)),
        backlashCell(assembly, system),
      ]),
    },
  ];
}

function packCell(assembly: CertificateAssembly, place: ShimPack['place'], system: UnitSystem): Cell {
  const pack = resultOf(assembly, 'shims', 'shims')?.packs.find((one) => one.place === place);
  if (pack === undefined) return cell('–');
  const each = pack.each.map((one) => typedText(one, system).split(' ')[0]).join(' + ');
  return cell(typedText(pack.pack, system), pack.each.length < 2 ? {} : { under: each });
}

function backlashCell(assembly: CertificateAssembly, system: UnitSystem): Cell {
  const backlash = resultOf(assembly, 'backlash', 'backlash');
  return cell(backlash === undefined ? '–' : resultBrief(backlash, system));
}
