import { assemblyName, readNotebook } from '../../job/records/build.ts';
import { checkOf } from '../../job/checks/checks.ts';
import type { Deed, Entry, Laying } from '../../job/records/notebook.ts';
import { noCase } from '../../basics/noCase.ts';

const layingWords: Readonly<Record<Laying, string>> = {
  'on-the-bench': 'taken back onto the bench',
  'put-away': 'put away',
  'thrown-away': 'thrown away',
};

/** What one entry of a notebook wrote, in a few words: "backlash of trial 2". `entries` is the notebook it stands in. */
export function deedWords({ id }: Pick<Entry, 'id'>, entries: readonly Entry[]): string {
  const deed = entries.find((entry) => entry.id === id)?.deed;
  return deed === undefined ? 'an entry' : wordsOf(deed, entries);
}

function wordsOf(deed: Deed, entries: readonly Entry[]): string {
  const on = (assembly: string): string => `of ${nameOf(assembly, entries)}`;
  switch (deed.kind) {
    case 'started':
      return `the start of ${deed.title}`;
    case 'described':
      return 'the description of the axle';
    case 'limits-set':
      return `the limits, ${deed.specSheet.name}`;
    case 'noted':
      return `the note “${shortened(deed.text)}”`;
    case 'assembled':
      return `the opening of ${deed.assembly.phase === 'as-found' ? 'as found' : deed.assembly.phase}`;
    case 'measured':
      return `${checkOf(deed.check).title.toLowerCase()} ${on(deed.assembly)}`;
    case 'overridden':
      return `the override of ${checkOf(deed.check).title.toLowerCase()} ${on(deed.assembly)}`;
    case 'looked-at':
      return `that it was looked at and is as told, ${on(deed.assembly)}`;
    case 'sleeve-step':
      return `a step on the crush sleeve ${on(deed.assembly)}`;
    case 'sleeve-wasted':
      return `the new crush sleeve ${on(deed.assembly)}`;
    case 'photographed':
      return `a photo ${on(deed.assembly)}`;
    case 'swap-planned':
      return `the swap card after ${nameOf(deed.assembly, entries)}`;
    case 'packs-measured':
      return 'the packs measured for a swap card';
    case 'renamed':
      return `the name ${deed.title}`;
    case 'laid':
      return layingWords[deed.where];
    case 'certified':
      return 'a certificate';
    case 'struck':
      return `struck through: ${deedWords({ id: deed.entry }, entries)}`;
    default:
      throw noCase(deed);
  }
}

const longest = 40;
const shortened = (text: string): string => (text.length <= longest ? text : `${text.slice(0, longest - 1).trim()}…`);

/** An assembly by its name, one that was struck through too: strikes are left out of the reading. */
function nameOf(id: string, entries: readonly Entry[]): string {
  const unstruck = entries.filter(({ deed }) => deed.kind !== 'struck');
  const assembly = readNotebook('', unstruck).assemblies.find((one) => one.id === id);
  return assembly === undefined ? 'an assembly' : assemblyName(assembly).toLowerCase();
}
