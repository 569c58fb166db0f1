import { z } from 'zod';
import type { Result } from '../../shared/basics/result.ts';
import type { Database } from '../store/database.ts';

/**
 * Which archive this bench sends to. It lies among the settings under a name that no page may write: an address is tried before
 * it is chosen. The password is not in it.
 */
const choiceSchema = z.object({ address: z.string().optional(), authority: z.string().optional() });
export type ArchiveChoice = z.infer<typeof choiceSchema>;

const name = 'archive';

/** What cannot be read is as if nothing had been chosen: it is chosen again. */
export function readChoice({ sql }: Pick<Database, 'sql'>): ArchiveChoice {
  const value = sql.prepare<[string], string>('SELECT value FROM setting WHERE name = ?').pluck().get(name);
  try {
    return choiceSchema.safeParse(JSON.parse(value ?? '{}')).data ?? {};
  } catch {
    return {};
  }
}

export const writeChoice = ({ sql, write, clock }: Database, choice: ArchiveChoice): Result<void> =>
  write(() => {
    sql
      .prepare(
        'INSERT INTO setting (name, at, value) VALUES (?, ?, ?) ON CONFLICT (name) DO UPDATE SET at = excluded.at, value = excluded.value',
      )
      .run(name, new Date(clock.wall_ms()).toISOString(), JSON.stringify(choice));
  });
