import { type Unfinished, unfinishedSchema } from '../../shared/contract/unfinished.ts';
import type { CheckId } from '../../shared/job/records/checkIds.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { readable, type Skip, writable } from './recordRows.ts';

/** Which measurement of which putting-together. */
interface Which {
  readonly assembly: string;
  readonly check: CheckId;
}

/** How far each measurement has come that was begun and not recorded. */
export interface UnfinishedStore {
  /** Undefined where nothing was begun, or the note cannot be read: then it is begun anew. */
  find(which: Which): Unfinished | undefined;
  note(which: Which, unfinished: Unfinished): Result<void>;
  forget(which: Which): Result<void>;
}

export function openUnfinished({ sql, write }: Database, skip: Skip): UnfinishedStore {
  const find = sql.prepare<[string, string], { record: string }>(
    'SELECT record FROM unfinished WHERE assembly = ? AND check_id = ?',
  );
  const note = sql.prepare<[string, string, string]>(
    'INSERT INTO unfinished (assembly, check_id, record) VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET record = excluded.record',
  );
  const forget = sql.prepare<[string, string]>('DELETE FROM unfinished WHERE assembly = ? AND check_id = ?');
  return {
    find({ assembly, check }) {
      const row = find.get(assembly, check);
      if (row === undefined) return undefined;
      const read = readable(unfinishedSchema, () => JSON.parse(row.record), 'A measurement under way');
      if (read.ok) return read.value;
      skip(`measurement under way ${assembly} ${check}`, read.problem);
      return undefined;
    },
    note({ assembly, check }, unfinished) {
      const checked = writable(unfinishedSchema, unfinished, 'This measurement under way');
      if (!checked.ok) return checked;
      return write(() => void note.run(assembly, check, JSON.stringify(checked.value)));
    },
    forget: ({ assembly, check }) => write(() => void forget.run(assembly, check)),
  };
}
