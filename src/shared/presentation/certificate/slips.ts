import { insideOf } from '../../basics/recorded.ts';
import { showText, type UnitSystem } from '../../basics/show.ts';
import type { Shop } from '../../job/certifying/certificateData.ts';
import { assemblyName, type Build, type Swap } from '../../job/records/build.ts';
import { gearSetWords } from '../words/gearSet.ts';
import { dayText, paperTimeText } from '../words/days.ts';
import { typedText } from '../words/results.ts';
import type { CertificateContent } from './content.ts';
import { type Block, type Cell, cell, heading, list, type TableBlock, words, wordColumn } from './page.ts';
import { nothing, packCell, placesIn, placeWords, resultCell } from './progress.ts';
import { placeTerms } from './terms.ts';

/** Small papers of a build: a tag that goes with the axle, a card for what is changed before the next trial. */
export type SlipWanted = { readonly kind: 'tag' } | { readonly kind: 'swap-card'; readonly swap: string };

/** How an axle left the stand, to be tied to it or kept in its cover: what whoever opens it next looks for. */
export function tagBlocks(
  content: CertificateContent,
  { certificates, notes }: Pick<Build, 'certificates' | 'notes'>,
  { system, shop }: { readonly system: UnitSystem; readonly shop?: Shop | undefined },
): readonly Block[] {
  const { build, makeUp, asOf } = content;
  const number = certificates.at(-1)?.sha256.slice(0, 8);
  const plate = notes.findLast(({ topic }) => topic === 'plate')?.text;
  return [
    {
      kind: 'title',
      left: shop === undefined ? ['Axle tag'] : [shop.name, 'Axle tag'],
      right: [number === undefined ? 'No certificate issued' : `Certificate ${number}`],
      ...(shop?.logo === undefined ? {} : { logo: shop.logo }),
      words: build.title,
      under: [
        ...(makeUp === undefined ? [] : [gearSetWords(makeUp, system)]),
        `${build.technician} · ${paperTimeText(asOf)}${plate === undefined ? '' : ` · ${plate}`}`,
      ],
    },
    ...leftAs(content, system),
    words(
      `Whoever opens it next: enter ${number === undefined ? 'the title' : `${number} or the title`} among all builds.`,
      'quiet',
    ),
    ...list(content.cautions.slice(0, 1), { quiet: true }),
  ];
}

function leftAs(content: CertificateContent, system: UnitSystem): readonly Block[] {
  const last = content.assemblies.at(-1);
  if (last === undefined) return [words('Nothing has been put together or measured yet.', 'quiet')];
  const rows: readonly (readonly [string, Cell])[] = [
    ...placesIn(content).map((place) => [`${placeTerms[place]} shims`, packCell(last, place, system)] as const),
    ['Backlash', resultCell(last, 'backlash', system)],
    ['Pinion rotating torque', resultCell(last, 'pinion-torque', system)],
    ['Total rotating torque', resultCell(last, 'total-torque', system)],
    ['Numbers of the set', resultCell(last, 'set-numbers', system)],
  ];
  const known = rows.filter(([, { text }]) => text !== nothing);
  if (known.length === 0) return [words('Nothing was measured on the last assembly.', 'quiet')];
  const columns = [wordColumn('Measured', 1), wordColumn(last.name, 1.6)];
  return [
    heading(3, 'As it left'),
    { kind: 'table', columns, rows: known.map(([name, value]) => [cell(name), value]) },
  ];
}

/** What comes out, what goes in, and what should be read then; with room for a hand. */
export function swapCardBlocks(build: Build, swap: Swap, system: UnitSystem): readonly Block[] {
  const after = build.assemblies.find(({ id }) => id === swap.assembly);
  return [
    {
      kind: 'title',
      left: ['Swap card'],
      right: [dayText(swap.at)],
      words: build.title,
      under: [
        `${after === undefined ? '' : `After ${assemblyName(after).toLowerCase()} · `}${swap.by} · ${swap.chosenBy === 'plan' ? 'as the plan has it' : 'own choice'}`,
      ],
    },
    ...(swap.lines.length === 0 ? [] : [heading(3, 'Packs'), packTable(swap, system)]),
    ...notchWords(swap),
    words(expectedWords(swap, system)),
    { kind: 'signature', fields: ['Packs measured by', 'Date'] },
  ];
}

function packTable({ lines, measured }: Swap, system: UnitSystem): TableBlock {
  return {
    kind: 'table',
    columns: [
      wordColumn('Place', 1.4),
      ...['Comes out', 'Goes in', 'Change', 'As measured'].map((head) => wordColumn(head)),
    ],
    rows: lines.map(({ place, out, wanted_mm }) => {
      const change_mm = wanted_mm - insideOf(out);
      const pack = measured?.packs.find((one) => one.place === place)?.pack;
      return [
        cell(placeTerms[place]),
        cell(typedText(out, system)),
        cell(showText(wanted_mm, 'length', system)),
        cell(`${change_mm > 0 ? '+' : ''}${showText(change_mm, 'length', system)}`),
        cell(pack === undefined ? '' : typedText(pack, system)),
      ];
    }),
  };
}

function notchWords({ notches = 0 }: Swap): readonly Block[] {
  if (notches === 0) return [];
  const count = Math.abs(notches) === 1 ? '1 notch' : `${Math.abs(notches)} notches`;
  return [words(`Adjusters: the ring gear ${count} ${notches > 0 ? 'away from' : 'closer to'} the pinion.`)];
}

function expectedWords({ expected: { backlash, drive, coast } }: Swap, system: UnitSystem): string {
  const { mean_mm, min_mm, max_mm, U95_mm } = backlash;
  const [mean, low, high, doubt] = [mean_mm, min_mm, max_mm, U95_mm].map((one) => showText(one, 'length', system));
  const marks = [
    ...(drive === undefined ? [] : [`drive mark ${placeWords(drive)}`]),
    ...(coast === undefined ? [] : [`coast mark ${placeWords(coast)}`]),
  ].join('; ');
  return `To be expected: backlash ${mean} ± ${doubt}, from ${low} to ${high}${marks === '' ? '' : `; ${marks}`}.`;
}
