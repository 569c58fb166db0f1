import { assemblyName, readNotebook } from '../../shared/job/records/build.ts';
import type { JournalRow } from '../journal/entry.ts';
import { rowsFromCsv } from '../journal/csv.ts';
import { originsOf } from '../store/origins.ts';
import { openStretches } from '../store/stretches.ts';
import type { ExportedFile, Source } from './source.ts';

/**
 * The readings each measurement rests on, a file each, one object a line as `watch` writes them and `measure` reads them:
 * anyone can work the figures of a build out again. Lines that could not be read and presses stand in their places.
 */
export function journalFiles({ database, notebook, identity }: Source, title: string): readonly ExportedFile[] {
  const own = identity.bench.id;
  const stretches = openStretches(database, own);
  const origins = originsOf(database, notebook.id);
  const streamed = readNotebook(notebook.id, notebook.entries).assemblies.flatMap((assembly) =>
    assembly.measurements.map((measurement) => ({ assembly: assemblyName(assembly), measurement })),
  );
  return streamed.flatMap(({ assembly, measurement }, index) => {
    const { id, how, check } = measurement;
    if (how.kind !== 'streamed') return [];
    const { gauge, from, to, bench = origins.get(id) ?? own } = how.stretch;
    const rows = rowsFromCsv(stretches.lines({ bench, gauge, from, to }), gauge);
    const lines = rows.ok ? rows.value.flatMap((row) => lineOf(row) ?? []) : [];
    if (lines.length === 0) return [];
    const number = String(index + 1).padStart(2, '0');
    const place = assembly.toLowerCase().replaceAll(/[^a-z0-9]+/gu, '-');
    const name = `${title}-${number}-${place}-${check}.jsonl`;
    return [{ name, bytes: lines.map((line) => `${JSON.stringify(line)}\n`).join('') }];
  });
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
