import type { CertificateContent } from '../../shared/presentation/certificate/content.ts';
import { assemblyName, type Measurement, readNotebook } from '../../shared/job/records/build.ts';
import type { JournalRow } from '../journal/entry.ts';
import { readPages } from '../journal/readRows.ts';
import type { Database } from '../store/database.ts';

/** A file to be written, by its name in the folder that was asked for. */
export interface ExportedFile {
  readonly name: string;
  readonly bytes: Buffer | string;
}

/**
 * The readings each measurement rests on, a file each, one object a line as `watch` writes them and `measure` reads them:
 * anyone can work the figures of a build out again. Lines that could not be read and presses stand in their places.
 */
export function journalFiles(
  database: Database,
  { build, notebook }: CertificateContent,
  title: string,
): readonly ExportedFile[] {
  const streamed = readNotebook(build.id, notebook).assemblies.flatMap((assembly) =>
    assembly.measurements.map((measurement) => ({ assembly: assemblyName(assembly), measurement })),
  );
  return streamed.flatMap(({ assembly, measurement }, index) => {
    const lines = linesOf(database, measurement);
    if (lines.length === 0) return [];
    const number = String(index + 1).padStart(2, '0');
    const place = assembly.toLowerCase().replaceAll(/[^a-z0-9]+/gu, '-');
    const name = `${title}-${number}-${place}-${measurement.check}.jsonl`;
    return [{ name, bytes: lines.map((line) => `${JSON.stringify(line)}\n`).join('') }];
  });
}

function linesOf({ sql }: Database, { how }: Measurement): readonly object[] {
  if (how.kind !== 'streamed') return [];
  const { gauge, from, to } = how.stretch;
  return [...readPages(sql, gauge, from, to, true)].flatMap((row) => lineOf(row) ?? []);
}

function lineOf(row: JournalRow): object | undefined {
  const { t } = row;
  if (row.kind === 'pedal') return { t, pedal: row.note };
  if (row.kind === 'reading') {
    const { value, unit, note } = row;
    return { t, value, unit, raw: latin1(row.raw), flags: note === undefined ? [] : note.split(',') };
  }
  if (row.kind === 'unreadable') return { t, value: { none: row.note }, unit: '', raw: latin1(row.raw), flags: [] };
  return undefined;
}

const latin1 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');
