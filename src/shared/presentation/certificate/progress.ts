import { showText, type UnitSystem } from '../../basics/show.ts';
import { isNone } from '../../basics/result.ts';
import type { CheckId } from '../../job/records/checkIds.ts';
import type { Mark } from '../../axle/mark/mark.ts';
import { shimPlacesOf, type ShimPlace } from '../../axle/makeUp.ts';
import { checkBrief } from '../words/answers.ts';
import { typedText } from '../words/results.ts';
import { shapeOf } from '../words/standing.ts';
import { dayText } from '../words/days.ts';
import { overrideWords, remarks } from './assembly.ts';
import { resultOf } from './checkTable.ts';
import type { CertificateAssembly, CertificateContent } from './content.ts';
import { flanksPicture } from './drawings.ts';
import { limitChangeBlocks } from './limitChanges.ts';
import { type Block, type Cell, cell, heading, list, type PicturesBlock, type TableBlock, wordColumn } from './page.ts';
import { bearingTerms, placeTerms } from './terms.ts';

/** So many assemblies find room beside each other; more go into a further table. */
const mostAcross = 5;

/** How it got there: as found, trials and final side by side, their marks, and what has to be said about them. */
export function progressBlocks(content: CertificateContent, system: UnitSystem): readonly Block[] {
  const { assemblies } = content;
  if (assemblies.length === 0) return [];
  const noted = assemblies.flatMap((one) => remarks(one, system).map((said) => `${one.name}. ${said}`));
  const overridden = assemblies.flatMap((one) => overrideWords(one).map((said) => `${one.name}. ${said}`));
  return [
    heading(2, 'How it got there'),
    ...inGroups(assemblies, mostAcross).flatMap((group, index) => [
      ...(index === 0 ? [] : [heading(3, `From ${group[0]?.name.toLowerCase() ?? ''} on`)]),
      sideBySide(content, group, system),
    ]),
    ...markRow(content),
    ...titled('To be noted', noted),
    ...titled('Overridden, with the reason given', overridden),
    ...limitChangeBlocks(content, system),
  ];
}

const titled = (title: string, items: readonly string[]): readonly Block[] =>
  items.length === 0 ? [] : [heading(3, title), ...list(items, { quiet: true })];

/** As many groups as it takes, of sizes as even as can be: a single last column would stand alone. */
function inGroups<T>(all: readonly T[], most: number): readonly (readonly T[])[] {
  const count = Math.ceil(all.length / most);
  const size = Math.ceil(all.length / count);
  return Array.from({ length: count }, (_, group) => all.slice(group * size, (group + 1) * size));
}

interface Row {
  readonly name: string;
  readonly of: (assembly: CertificateAssembly) => Cell;
}

function sideBySide(
  content: CertificateContent,
  group: readonly CertificateAssembly[],
  system: UnitSystem,
): TableBlock {
  const rows: readonly Row[] = [
    { name: 'Begun', of: ({ at }) => cell(dayText(at), { under: at.slice(11, 16) }) },
    { name: 'On', of: ({ bearings, seal }) => cell(bearingTerms[bearings], { under: `seal ${seal}` }) },
    ...placesIn(content).map((place) => ({
      name: `${placeTerms[place]} shims`,
      of: (one: CertificateAssembly) => packCell(one, place, system),
    })),
    ...checksAcross.map(([name, id]) => ({ name, of: (one: CertificateAssembly) => resultCell(one, id, system) })),
    { name: 'Backlash varies by', of: (one) => variationCell(one, system) },
    { name: 'Drive mark', of: (one) => markCell(one, 'drive') },
    { name: 'Coast mark', of: (one) => markCell(one, 'coast') },
    { name: 'Judgement of the mark', of: (one) => resultCell(one, 'mark', system) },
  ];
  const told = rows
    .map(({ name, of }) => ({ name, cells: group.map(of) }))
    .filter(({ cells }) => cells.some(({ text }) => text !== nothing));
  return {
    kind: 'table',
    columns: [wordColumn('', 1.5), ...group.map(({ name }) => wordColumn(name, 1))],
    rows: told.map(({ name, cells }) => [cell(name), ...cells]),
  };
}

/** Stands where nothing was read. */
export const nothing = '–';

const checksAcross: readonly (readonly [string, CheckId])[] = [
  ['Ring gear runout', 'ring-gear-runout'],
  ['Pinion rotating torque', 'pinion-torque'],
  ['Total rotating torque', 'total-torque'],
  ['Backlash', 'backlash'],
];

export function placesIn({ makeUp, assemblies }: CertificateContent): readonly ShimPlace[] {
  const packs = assemblies.flatMap((one) => resultOf(one, 'shims', 'shims')?.packs ?? []);
  return [...new Set([...(makeUp === undefined ? [] : shimPlacesOf(makeUp)), ...packs.map(({ place }) => place)])];
}

export function packCell(assembly: CertificateAssembly, place: ShimPlace, system: UnitSystem): Cell {
  const pack = resultOf(assembly, 'shims', 'shims')?.packs.find((one) => one.place === place);
  if (pack === undefined) return cell(nothing);
  const each = pack.each.map((one) => typedText(one, system).split(' ')[0]).join(' + ');
  return cell(typedText(pack.pack, system), pack.each.length < 2 ? {} : { under: each });
}

/** What was measured on this very assembly; what carries over stands where it was read. */
export function resultCell(assembly: CertificateAssembly, id: CheckId, system: UnitSystem): Cell {
  const check = assembly.checks.find((one) => one.check === id);
  if (check?.measurement === undefined || check.carriedFrom !== undefined) return cell(nothing);
  return cell(checkBrief(check.check, check.measurement.result, system), { shape: shapeOf(check) });
}

function variationCell(assembly: CertificateAssembly, system: UnitSystem): Cell {
  const backlash = resultOf(assembly, 'backlash', 'backlash');
  return backlash === undefined || isNone(backlash.variation_mm)
    ? cell(nothing)
    : cell(showText(backlash.variation_mm, 'length', system));
}

/** Where its centre lies, in shares of the flank: towards heel and crown positive. */
function markCell(assembly: CertificateAssembly, side: 'drive' | 'coast'): Cell {
  const mark = resultOf(assembly, 'mark', 'mark')?.[side];
  return mark === undefined || isNone(mark) ? cell(nothing) : cell(placeWords(mark));
}

export const placeWords = ({ heel, crown }: Mark): string =>
  `${towards(heel, 'heel', 'toe')}, ${towards(crown, 'crown', 'root')}`;

/** "heel 12 %": a share of the face or of the flank's height, from its middle. */
function towards(share: number, plus: string, minus: string): string {
  const percent = Math.round(100 * Math.abs(share));
  return percent === 0 ? 'middle' : `${share > 0 ? plus : minus} ${percent} %`;
}

/** The marks of every assembly that has one, small, in their order. */
function markRow(content: CertificateContent): readonly (PicturesBlock | Block)[] {
  const pictures = content.assemblies.flatMap((assembly) => {
    const picture = flanksPicture(content.makeUp, resultOf(assembly, 'mark', 'mark'), undefined, { bare: true });
    return picture === undefined ? [] : [{ ...picture, caption: assembly.name }];
  });
  if (pictures.length < 2) return [];
  return [heading(3, 'The marks, one after the other'), { kind: 'pictures', across: 4, pictures }];
}
