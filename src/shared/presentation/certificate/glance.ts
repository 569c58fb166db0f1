import { showText, type UnitSystem } from '../../basics/show.ts';
import { isNone } from '../../basics/result.ts';
import type { MarkResult } from '../../job/records/measurement.ts';
import type { CheckId } from '../../job/records/checkIds.ts';
import { gearSetWords } from '../words/gearSet.ts';
import { limitWords } from '../words/limits.ts';
import { checkBrief } from '../words/answers.ts';
import { shapeOf, standingWords } from '../words/standing.ts';
import { resultOf } from './checkTable.ts';
import type { CertificateAssembly, CertificateCheck, CertificateContent } from './content.ts';
import { paperTimeText } from '../words/days.ts';
import { flanksPicture, ringPicture, unrolledPicture } from './drawings.ts';
import type { Signed } from './closing.ts';
import {
  type Block,
  cell,
  type Figure,
  heading,
  list,
  type PictureBlock,
  type TableBlock,
  words,
  wordColumn,
} from './page.ts';

/** As many missing things as the first page has room for; the rest follow on the next. */
export const missingOnFirst = 4;

/** The first page, for whom the axle belongs to: what it is, whether it is complete, and the last assembly at a glance. */
export function glanceBlocks(content: CertificateContent, signed: Signed, system: UnitSystem): readonly Block[] {
  const last = content.assemblies.at(-1);
  return [
    titleBlock(content, signed, system),
    verdictBlock(content),
    ...(last === undefined
      ? [words('Nothing has been put together or measured yet.', 'quiet')]
      : lastBlocks(content, last, system)),
    heading(3, 'Cautions'),
    ...list(content.cautions, { quiet: true }),
    { kind: 'signature', fields: ['Signature', 'Date'] },
  ];
}

const what = 'Ring-and-pinion set-up certificate';

function titleBlock(
  { build, asOf, makeUp }: CertificateContent,
  { sha256, shop, revision }: Signed,
  system: UnitSystem,
): Block {
  const { title, technician, startedAt, comebackOf } = build;
  return {
    kind: 'title',
    left: shop === undefined ? [what] : [shop.name, (shop.address ?? '').split('\n').join(', ')],
    right: [
      ...(shop === undefined ? [] : [what]),
      `No. ${sha256.slice(0, 8)}${revision === 1 ? '' : ` · revision ${revision}`}`,
    ],
    ...(shop?.logo === undefined ? {} : { logo: shop.logo }),
    words: title,
    under: [
      ...(makeUp === undefined ? [] : [`${gearSetWords(makeUp, system)}, ${makeUp.gearSet} set`]),
      `${technician} · begun ${paperTimeText(startedAt)} · as of ${paperTimeText(asOf)}`,
      ...(comebackOf === undefined ? [] : [`Comeback of build ${comebackOf}`]),
    ],
  };
}

/** What it came with beside what it leaves with. */
function beforeAndAfter({ assemblies }: CertificateContent, system: UnitSystem): TableBlock | undefined {
  const found = assemblies.find(({ phase }) => phase === 'as-found');
  const last = assemblies.at(-1);
  if (found === undefined || last === undefined || last.phase !== 'final') return undefined;
  const rows = comparedChecks.flatMap(([name, id]) => {
    const [before, after] = [found, last].map((one) => one.checks.find(({ check }) => check === id));
    if (before?.measurement === undefined || after?.measurement === undefined) return [];
    return [[cell(name), resultCellOf(before, system), resultCellOf(after, system)]];
  });
  if (rows.length === 0) return undefined;
  return {
    kind: 'table',
    columns: [wordColumn('Before and after', 1), wordColumn('As found', 1), wordColumn('Now', 1)],
    rows,
  };
}

const comparedChecks: readonly (readonly [string, CheckId])[] = [
  ['Backlash', 'backlash'],
  ['Ring gear runout', 'ring-gear-runout'],
  ['Total rotating torque', 'total-torque'],
];

const resultCellOf = (check: CertificateCheck, system: UnitSystem) =>
  cell(check.measurement === undefined ? '–' : checkBrief(check.check, check.measurement.result, system), {
    shape: shapeOf(check),
  });

function verdictBlock({ complete, missing, assemblies, statement }: CertificateContent): Block {
  const over = missing.length - missingOnFirst;
  const shown = over > 1 ? [...missing.slice(0, missingOnFirst), `and ${over} more, listed on the next page`] : missing;
  return {
    kind: 'verdict',
    complete,
    words: complete ? 'Complete' : 'Incomplete',
    under: complete ? completeWords(assemblies) : 'What is missing:',
    missing: shown,
    reach: statement,
  };
}

function completeWords(assemblies: readonly CertificateAssembly[]): string {
  const overridden = assemblies.flatMap(({ checks }) => checks).filter(({ override }) => override !== undefined).length;
  const close = closeIn(assemblies.slice(-1));
  const parts = [
    ...(overridden === 0 ? [] : [`${overridden} overridden with a reason`]),
    ...(close === 0 ? [] : [`${close} too close to call`]),
  ];
  const taken = `Every required reading was taken${overridden === 0 ? '' : ' or overridden'}`;
  return `${taken}${parts.length === 0 ? '' : `: ${parts.join(', ')}`}.${earlierWords(closeIn(assemblies.slice(0, -1)))}`;
}

const closeIn = (assemblies: readonly CertificateAssembly[]): number =>
  assemblies.flatMap(({ checks }) => checks).filter(({ closeCall, override }) => closeCall && override === undefined)
    .length;

/** What was close as it was found, or on a trial, is no doubt about what leaves the stand. */
function earlierWords(close: number): string {
  if (close === 0) return '';
  return ` Of the readings taken before, on parts since set up anew, ${close === 1 ? 'one was' : `${close} were`} too close to call.`;
}

function lastBlocks(content: CertificateContent, last: CertificateAssembly, system: UnitSystem): readonly Block[] {
  const figures = { kind: 'figures', columns: 2, figures: keyFigures(last, system) } as const;
  const ring = ringOf(content, last, system);
  const mark = resultOf(last, 'mark', 'mark');
  const first = content.assemblies.find(({ phase }) => phase === 'as-found');
  const found = first === last ? undefined : resultOf(first, 'mark', 'mark');
  const flanks = mark === undefined ? undefined : flanksPicture(content.makeUp, mark, found);
  const title = heading(
    2,
    last.name === 'Final' ? 'The final assembly' : `The last assembly: ${last.name.toLowerCase()}`,
  );
  return [
    title,
    ring === undefined ? figures : { kind: 'beside', picture: ring, share: 0.37, right: [figures] },
    ...stripOf(content, last, system),
    ...marksAndBefore(flanks === undefined ? undefined : captioned(flanks, found), beforeAndAfter(content, system)),
  ];
}

/** The marks with what was found before beside them, as far as there is either. */
function marksAndBefore(flanks: PictureBlock | undefined, before: TableBlock | undefined): readonly Block[] {
  if (flanks === undefined)
    return [words('No mark has been recorded on this assembly.', 'quiet'), ...(before === undefined ? [] : [before])];
  return before === undefined
    ? [{ ...flanks, across: 0.62 }]
    : [{ kind: 'beside', picture: { ...flanks, share: 0.44, closeShare: flanks.share }, share: 0.52, right: [before] }];
}

const captioned = (flanks: PictureBlock, found: MarkResult | undefined): PictureBlock => ({
  ...flanks,
  caption: `The ring is seen from the teeth.${found === undefined ? '' : ' The thin line is the mark as found.'}`,
});

function ringOf(content: CertificateContent, last: CertificateAssembly, system: UnitSystem): PictureBlock | undefined {
  const backlash = resultOf(last, 'backlash', 'backlash');
  const picture = ringPicture(content, backlash, resultOf(last, 'ring-gear-runout', 'runout'), system);
  return picture;
}

/** Stations that were read make a run worth laying out; runout alone is all in the ring. */
function stripOf(content: CertificateContent, last: CertificateAssembly, system: UnitSystem): readonly Block[] {
  const backlash = resultOf(last, 'backlash', 'backlash');
  const strip = unrolledPicture(content, backlash, undefined, system);
  return strip === undefined ? [] : [strip];
}

const keyChecks: readonly CheckId[] = [
  'backlash',
  'ring-gear-runout',
  'pinion-torque',
  'case-preload',
  'total-torque',
  'mark',
];

function keyFigures(assembly: CertificateAssembly, system: UnitSystem): readonly Figure[] {
  return keyChecks.flatMap((id) => {
    const check = assembly.checks.find((one) => one.check === id);
    if (check === undefined || (check.needed === 'optional' && check.measurement === undefined)) return [];
    return [keyFigure(check, system)];
  });
}

function keyFigure(check: CertificateCheck, system: UnitSystem): Figure {
  const { measurement, carriedFrom } = check;
  const [main, ...others] = check.limits.filter(({ otherBasis }) => otherBasis !== true);
  const judged = check.check === 'mark' && check.standing === 'recorded';
  const variation = others.find(({ quantity }) => quantity === 'backlash-variation');
  return {
    name: [
      check.title,
      ...(carriedFrom === undefined ? [] : [carriedFrom.toLowerCase()]),
      ...(measurement?.how.kind === 'typed' ? ['typed'] : []),
    ].join(' · '),
    value: measurement === undefined ? '' : checkBrief(check.check, measurement.result, system),
    shape: shapeOf(check),
    standing: judged ? 'judged by the technician' : standingWords(check),
    limit: main === undefined ? '' : limitWords(main.limit, system),
    ...(variation === undefined || isNone(variation.value)
      ? {}
      : {
          more: `variation ${showText(variation.value, 'length', system)}, ${limitWords(variation.limit, system)}`,
        }),
  };
}
