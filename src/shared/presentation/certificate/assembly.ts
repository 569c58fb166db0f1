import type { UnitSystem } from '../../basics/show.ts';
import type { Measurement } from '../../job/records/build.ts';
import { checkIds } from '../../job/records/checkIds.ts';
import { checkOf } from '../../job/checks/checks.ts';
import { standingSentence } from '../words/standing.ts';
import { checkTable, resultOf } from './checkTable.ts';
import type { CertificateAssembly, CertificateCheck, CertificateContent } from './content.ts';
import { paperTimeText } from '../words/days.ts';
import { flanksPicture, ringPicture } from './drawings.ts';
import { runoutBlocks, stationTable, torqueBlocks } from './figures.ts';
import { sheetHeld } from './limitChanges.ts';
import { madeWords, photosWords, placesWords } from './markWords.ts';
import { type Block, heading, list, words, type WordsBlock } from './page.ts';
import { sleeveBlocks } from './sleeve.ts';
import { bearingTerms } from './terms.ts';

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
    ...sleeveBlocks(content, assembly, system),
    ...markBlocks(content, assembly, system),
  ];
}

/** What carries over from a trial has its details there. */
const ownOf = (assembly: CertificateAssembly): CertificateAssembly => ({
  ...assembly,
  checks: assembly.checks.filter(({ carriedFrom }) => carriedFrom === undefined),
});

const titled = (title: string, blocks: readonly Block[]): readonly Block[] =>
  blocks.length === 0 ? [] : [heading(3, title), ...blocks];

/** An axle as found was put together by somebody else. */
const begun: Readonly<Record<CertificateAssembly['phase'], string>> = {
  'as-found': 'looked at from',
  stripping: 'taken apart from',
  trial: 'put together',
  final: 'put together',
};

const assemblyFacts = (assembly: CertificateAssembly): string =>
  [
    `${begun[assembly.phase]} ${paperTimeText(assembly.at)}`,
    bearingTerms[assembly.bearings],
    `seal ${assembly.seal}`,
    assembly.sleeve ? 'sleeve or spacer in' : 'no sleeve',
  ].join(' · ');

const notAsked = (assembly: CertificateAssembly): readonly Block[] => {
  const left = assembly.checks.filter((check) => check.needed === 'optional' && check.measurement === undefined);
  if (left.length === 0) return [];
  return [words(`Optional and not measured: ${left.map(({ title }) => title.toLowerCase()).join(', ')}.`, 'quiet')];
};

/** Every check that is outside, too close to call or has a reason to tell, in a sentence with its number; nothing twice. */
export function remarks(assembly: CertificateAssembly, system: UnitSystem): readonly string[] {
  return ownOf(assembly).checks.flatMap((check) => {
    if (check.measurement === undefined) return [];
    const told =
      check.standing === 'outside' || check.closeCall || check.why !== undefined || check.standing === 'no-limit';
    const sentence = told ? [sentenceOf(check, check.measurement, system)] : [];
    const note = noteOf(check).filter((words) => !sentence.some((said) => said.includes(words)));
    const earlier = check.earlier === 0 ? [] : [earlierWords(check)];
    return [...sentence, ...note.map((words) => `${check.title}: ${words}`), ...earlier];
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

function noteOf({ measurement }: CertificateCheck): readonly string[] {
  const result = measurement?.result;
  const note = result?.kind === 'confirmed' || result?.kind === 'mark' ? result.note : undefined;
  return note === undefined || note === '' ? [] : [note];
}

export const overrideWords = (assembly: CertificateAssembly): readonly string[] =>
  assembly.checks.flatMap(({ title, override }) =>
    override === undefined ? [] : [`${title}: ${override.reason} (${override.by}, ${paperTimeText(override.at)})`],
  );

function backlashBlocks(
  content: CertificateContent,
  assembly: CertificateAssembly,
  system: UnitSystem,
): readonly Block[] {
  const backlash = resultOf(assembly, 'backlash', 'backlash');
  if (backlash === undefined) return [];
  const { makeUp } = content;
  const held = { ...sheetHeld(content, assembly), ...(makeUp === undefined ? {} : { makeUp }) };
  const picture = ringPicture(held, backlash, resultOf(assembly, 'ring-gear-runout', 'runout'), system);
  const table = [...stationTable(held, backlash, system), ...carriedRunout(assembly)];
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

function markBlocks(content: CertificateContent, assembly: CertificateAssembly, system: UnitSystem): readonly Block[] {
  const mark = resultOf(assembly, 'mark', 'mark');
  if (mark === undefined) return [];
  const first = content.assemblies.find(({ phase }) => phase === 'as-found');
  const found = first === assembly ? undefined : resultOf(first, 'mark', 'mark');
  const picture = flanksPicture(content.makeUp, mark, found);
  const judgement = { accepted: 'accepted', change: 'asks for a change', recorded: 'recorded' }[mark.judgement];
  const compound = mark.compound === undefined || mark.compound === '' ? '' : ` Compound: ${mark.compound}.`;
  const thin = found === undefined ? '' : ' The thin line is the mark as found.';
  const said = `The technician’s judgement: ${judgement}.${compound}${madeWords(mark, system)}${placesWords(mark)}${photosWords(mark)}${thin}`;
  return [
    heading(3, 'Mark on the teeth'),
    ...(picture === undefined ? [words(said, 'quiet')] : [{ ...picture, caption: said }]),
  ];
}
