import type { SpecSheet } from '../../../../shared/job/records/specSheet.ts';

/** Where the limits of a sheet come from, each source once. */
const sourcesOf = ({ limits }: SpecSheet): readonly string[] => [...new Set(limits.map(({ source }) => source))];

/**
 * The sheets in which every word that was typed stands, in the name, a source or the note, in any order and case: "rear 5123"
 * finds "WO 5123 rear axle". Without a word all of them.
 */
export function sheetsFound(sheets: readonly SpecSheet[], typed: string): readonly SpecSheet[] {
  const words = typed
    .toLocaleLowerCase()
    .split(/\s+/u)
    .filter((word) => word !== '');
  return sheets.filter((sheet) => {
    const text = [sheet.name, sheet.note ?? '', ...sourcesOf(sheet)].join(' ').toLocaleLowerCase();
    return words.every((word) => text.includes(word));
  });
}

/** "8 limits, from Maker’s manual, table 9." */
export function sheetWords(sheet: SpecSheet): string {
  const { length } = sheet.limits;
  const count = length === 0 ? 'No limits' : length === 1 ? 'One limit' : `${length} limits`;
  const sources = sourcesOf(sheet);
  if (sources.length === 0) return `${count}.`;
  const more = sources.length > 2 ? ` and ${sources.length - 2} more` : '';
  return `${count}, from ${sources.slice(0, 2).join('; ')}${more}.`;
}
