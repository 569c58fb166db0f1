import { z } from 'zod';
import { instantSchema } from '../../shared/basics/recorded.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';

/**
 * Where backups go, and the last one. It lies among the settings under a name that no page may write: a folder is looked at
 * before it is chosen.
 */
const choiceSchema = z.object({
  folder: z.string().optional(),
  last: z
    .object({
      at: instantSchema,
      file: z.string(),
      bytes: z.int(),
      builds: z.int(),
      recorded: z.string(),
      line: z.int(),
    })
    .optional(),
});
type BackupChoice = z.infer<typeof choiceSchema>;

export interface BackupChoices {
  read(): BackupChoice;
  write(choice: BackupChoice, at: string): Result<void>;
  /** What people have recorded until now, as a text that differs as soon as there is more. */
  recorded(): string;
  /** The line of the last entry in all notebooks; 0 before the first. */
  lastLine(): number;
  /** When the first entry behind that line was written; undefined where there is none. */
  firstBehind(line: number): string | undefined;
}

const name = 'backup';

export function openBackupChoices({ sql, write }: Pick<Database, 'sql' | 'write'>): BackupChoices {
  const find = sql.prepare<[string], string>('SELECT value FROM setting WHERE name = ?').pluck();
  const put = sql.prepare<[string, string, string]>(
    'INSERT INTO setting (name, at, value) VALUES (?, ?, ?) ON CONFLICT (name) DO UPDATE SET at = excluded.at, value = excluded.value',
  );
  const counts = sql.prepare(
    `SELECT (SELECT max(line) FROM notebook_entry), (SELECT max(line) FROM gauge_revision), (SELECT max(line) FROM gauge_check),
      (SELECT max(line) FROM drawer_revision), (SELECT count(*) FROM loose_measurement), (SELECT count(*) FROM photo)`,
  );
  const last = sql.prepare<[], number>('SELECT coalesce(max(line), 0) FROM notebook_entry').pluck();
  const behind = sql
    .prepare<[number], string>('SELECT at FROM notebook_entry WHERE line > ? ORDER BY line LIMIT 1')
    .pluck();
  return {
    read: () => choiceOf(find.get(name)),
    write: (choice, at) => write(() => void put.run(name, at, JSON.stringify(choice))),
    recorded: () => JSON.stringify(counts.raw().get()),
    lastLine: () => last.get() ?? 0,
    firstBehind: (line) => behind.get(line),
  };
}

/** What cannot be read is as if nothing had been chosen: it is chosen again. */
function choiceOf(value: string | undefined): BackupChoice {
  try {
    return choiceSchema.safeParse(JSON.parse(value ?? '{}')).data ?? {};
  } catch {
    return {};
  }
}
