import type { CertificateData, StretchHashed } from '../../shared/job/certifying/certificateData.ts';
import type { Entry } from '../../shared/job/records/notebook.ts';
import type { Stretch } from '../../shared/job/records/measurement.ts';
import { csvColumns } from '../journal/csv.ts';
import type { StretchNamed } from '../store/stretches.ts';
import { sha256Of } from './hash.ts';

/** The readings of a build as one file, and what stands of them in the data. */
interface ReadingsFile {
  /** CSV: a line of column names, then the rows of each stretch, which the first column counts from 1. */
  readonly csv: string;
  readonly index: CertificateData['readings'];
}

/** Where readings come from: this bench's journal, or what was taken in. */
type LinesOf = (stretch: StretchNamed) => readonly string[];

const head = `${['stretch', ...csvColumns].join(',')}\n`;

/**
 * Gathers what the measurements of a notebook rest on, each stretch once, those of struck entries too.
 * @param benchOf the bench that wrote an entry: the one whose journal a stretch means that names none.
 */
export function gatherReadings(
  entries: readonly Entry[],
  benchOf: (entry: string) => string,
  linesOf: LinesOf,
): ReadingsFile {
  const found = new Map<string, StretchNamed & { readonly entries: string[] }>();
  for (const { id, deed } of entries) {
    const stretch = stretchOf(deed);
    if (stretch === undefined) continue;
    const named = { bench: stretch.bench ?? benchOf(id), gauge: stretch.gauge, from: stretch.from, to: stretch.to };
    const key = JSON.stringify(named);
    const known = found.get(key);
    if (known === undefined) found.set(key, { ...named, entries: [id] });
    else known.entries.push(id);
  }
  const parts = [...found.values()].map((stretch) => ({ stretch, lines: linesOf(stretch) }));
  const csv = `${head}${parts.map(({ lines }, index) => lines.map((line) => `${index + 1},${line}\n`).join('')).join('')}`;
  const stretches = parts.map(({ stretch, lines }): StretchHashed => ({
    ...stretch,
    rows: lines.length,
    sha256: hashOfLines(lines),
  }));
  return { csv, index: { sha256: sha256Of(csv), stretches } };
}

/** The stretch an entry of any kind rests on. */
export function stretchOf(deed: Entry['deed']): Stretch | undefined {
  if (!('how' in deed) || deed.how.kind !== 'streamed') return undefined;
  return deed.how.stretch;
}

export const hashOfLines = (lines: readonly string[]): string => sha256Of(lines.map((line) => `${line}\n`).join(''));

/**
 * The lines of each stretch back from the file, in the order of the index; what is wrong with it where it is not the file
 * that the index describes.
 */
export function splitReadings(
  csv: string,
  index: CertificateData['readings'],
): { readonly parts: readonly (readonly string[])[] } | { readonly wrong: string } {
  if (sha256Of(csv) !== index.sha256) return { wrong: 'the readings are not those that the data name by their hash' };
  if (!csv.startsWith(head)) return { wrong: 'the readings do not begin with the names of their columns' };
  const parts = index.stretches.map((): string[] => []);
  for (const line of csv.slice(head.length).split('\n').slice(0, -1)) {
    const comma = line.indexOf(',');
    const part = parts[Number(line.slice(0, comma)) - 1];
    if (part === undefined)
      return { wrong: `the readings have a stretch ${line.slice(0, comma)} that the data do not` };
    part.push(line.slice(comma + 1));
  }
  const other = index.stretches.findIndex(
    ({ rows, sha256 }, at) => parts[at]?.length !== rows || hashOfLines(parts[at] ?? []) !== sha256,
  );
  return other < 0 ? { parts } : { wrong: `stretch ${other + 1} of the readings has another hash than the data say` };
}
