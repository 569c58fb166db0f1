import type { MakeUp } from '../../axle/makeUp.ts';
import type { How, MeasuredResult } from '../records/measurement.ts';
import { type Deed, type Entry, standing } from '../records/notebook.ts';
import type { SpecSheet } from '../records/specSheet.ts';
import { noCase } from '../../basics/noCase.ts';
import { closedUp, folded } from './folded.ts';

/** Longer texts are sentences: nobody closes them up. */
const longestNumber = 40;

/**
 * Everything a person typed into a build that still stands, folded, a line for each text; names and numbers also closed up,
 * so that "AB-12 CD" is found as "ab12cd". The first signs of a certificate's hash stand on its paper and its tag.
 * @param id the build's, because it stands in exports.
 */
export function wordsTyped(id: string, entries: readonly Entry[]): string {
  const lines = new Set([folded(id)]);
  for (const { by, deed } of standing(entries)) {
    for (const text of [by, ...typedIn(deed)]) {
      if (text === undefined) continue;
      lines.add(folded(text));
      if (text.length <= longestNumber) lines.add(closedUp(text));
    }
  }
  lines.delete('');
  return [...lines].join('\n');
}

type Texts = readonly (string | undefined)[];

function typedIn(deed: Deed): Texts {
  switch (deed.kind) {
    case 'started':
      return [deed.title, deed.technician];
    case 'renamed':
      return [deed.title];
    case 'described':
      return named(deed.makeUp);
    case 'limits-set':
      return [...sheetTexts(deed.specSheet), deed.change?.why];
    case 'noted':
      return [deed.text];
    case 'measured':
      return [...resultTexts(deed.result), ...howTexts(deed.how)];
    case 'sleeve-step':
    case 'packs-measured':
      return howTexts(deed.how);
    case 'overridden':
      return [deed.reason];
    case 'certified':
      return [deed.sha256];
    case 'assembled':
    case 'sleeve-wasted':
    case 'looked-at':
    case 'photographed':
    case 'swap-planned':
    case 'laid':
    case 'struck':
      return [];
    default:
      throw noCase(deed);
  }
}

const named = ({ axleName, gearMaker, pinionTeeth, ringTeeth }: MakeUp): Texts => [
  axleName,
  gearMaker,
  `${pinionTeeth}/${ringTeeth}`,
];

const sheetTexts = ({ name, note, limits }: SpecSheet): Texts => [name, note, ...limits.map(({ source }) => source)];

/** Whatever a result holds of its own words: numbers of a set, a compound, a note. */
function resultTexts(result: MeasuredResult): Texts {
  if (result.kind === 'set-numbers') return [result.pinion, result.ringGear];
  if (result.kind === 'mark') return [result.compound, result.note];
  return result.kind === 'confirmed' ? [result.note, result.oil?.name] : [];
}

/** The gauge or tool it was taken with, by its label. */
const howTexts = (how: How): Texts => [
  'tool' in how ? how.tool : undefined,
  'gauge' in how ? how.gauge?.label : undefined,
];
