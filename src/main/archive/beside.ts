import type { ArchiveState } from '../../shared/contract/archive.ts';
import type { Database } from '../store/database.ts';
import { type Inside, listOf, type Way } from './connect.ts';
import type { Beside } from './notes.ts';

/**
 * The last entry of every other bench in these builds, and when it came, by the archive's own clock. Those of one load came at
 * the same moment: the one that stands last in the notebook is the last.
 */
export async function whoElse(way: Way | Inside, me: number, builds: readonly string[]): Promise<readonly Beside[]> {
  const rows = await way<(Omit<Beside, 'at'> & { readonly at: Date })[]>`
    SELECT DISTINCT ON (build.id, entry.sent_by) build.id AS build, entry.id AS entry, entry.at,
      coalesce((SELECT name FROM bench_called WHERE bench = entry.sent_by ORDER BY number DESC LIMIT 1), bench.id) AS bench
    FROM entry JOIN build ON build.number = entry.build JOIN bench ON bench.number = entry.sent_by
    WHERE build.id IN ${listOf(way, builds)} AND entry.sent_by <> ${me}
    ORDER BY build.id, entry.sent_by, entry.at DESC, entry.place DESC`;
  return rows.map(({ at, ...one }) => ({ ...one, at: at.toISOString() }));
}

const mostTold = 100;

/** Of what other benches wrote, what is not here yet: brought here, it is read, and nothing need be told of it any more. */
export function unread({ sql }: Pick<Database, 'sql'>, beside: readonly Beside[]): ArchiveState['beside'] {
  const isHere = sql.prepare<[string]>('SELECT 1 FROM notebook_entry WHERE id = ?');
  return beside
    .filter(({ entry }) => isHere.get(entry) === undefined)
    .map(({ build, bench, at }) => ({ build, bench, at }))
    .slice(0, mostTold);
}
