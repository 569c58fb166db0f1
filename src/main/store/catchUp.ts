import type { Database } from './database.ts';
import type { BuildList } from './buildList.ts';
import type { Notebooks } from './notebooks.ts';

/** As long as one step of making summaries anew may hold up the gauges, ms; the write at its end comes on top. */
const step_ms = 6;
const pause_ms = 25;
const atOnce = 20;

/**
 * Takes note of every build whose notebook has gone on without its summary: after a migration, a rescue from a damaged file, or
 * another program's hand. Those that could not be read are read again, because a backup or a newer program may have mended them.
 */
export function noteBehind({ sql, write }: Database): void {
  const newest = (table: string, column: string): unknown =>
    sql.prepare(`SELECT coalesce(max(${column}), 0) FROM ${table}`).pluck().get();
  const isWhole = newest('notebook_entry', 'line') === newest('build_summary', 'last');
  const broken = Number(sql.prepare('SELECT count(*) FROM build_summary WHERE problem IS NOT NULL').pluck().get());
  if (isWhole && broken === 0) return;
  write(() => {
    sql.exec('UPDATE build_summary SET upto = 0 WHERE problem IS NOT NULL');
    if (isWhole) return;
    sql.exec(`
      INSERT INTO build_summary
        (build, last, upto, version, lies, stage, next_do, started, trials, axle, customer, gear_set, teeth, hand, words)
      SELECT build, max(line), 0, 0, '', '', '', '', 0, '', '', '', '', '', '' FROM notebook_entry WHERE true GROUP BY build
      ON CONFLICT (build) DO UPDATE SET last = excluded.last`);
  });
}

export interface Shop {
  readonly database: Database;
  readonly notebooks: Notebooks;
  readonly buildList: BuildList;
}

/** Makes the summaries of these builds now, in one write. */
export function summariseNow(
  { database, notebooks }: Pick<Shop, 'database' | 'notebooks'>,
  builds: readonly string[],
): void {
  if (builds.length > 0) database.write(() => builds.forEach((build) => notebooks.summarise(build)));
}

/** Makes every summary that is behind, a few at a time between readings. @returns ends it */
export function catchUp(shop: Shop): () => void {
  let timer: NodeJS.Timeout | undefined;
  let before = Number.MAX_SAFE_INTEGER;
  const step = (): void => {
    const done = shop.database.write(() => summariseSome(shop, before));
    // Where the disk refuses, the next write tells why, and the next start begins here again.
    if (!done.ok) return;
    const atEnd = done.value === undefined;
    // Once through: from the first again, for what was written or marked meanwhile, until there is nothing.
    if (atEnd && before === Number.MAX_SAFE_INTEGER) return;
    before = done.value ?? Number.MAX_SAFE_INTEGER;
    timer = setTimeout(step, pause_ms).unref();
  };
  timer = setTimeout(step, 0).unref();
  return () => clearTimeout(timer);
}

/**
 * Makes the next summaries behind `before`, one at least, so that it ends however long looking for them took.
 * @returns the line to go on from; undefined where there was none
 */
function summariseSome({ buildList, notebooks }: Shop, before: number): number | undefined {
  const began = performance.now();
  let next: number | undefined;
  for (const { build, last } of buildList.behind(atOnce, before)) {
    if (next !== undefined && performance.now() - began > step_ms) break;
    notebooks.summarise(build);
    next = last;
  }
  return next;
}
