import { type Month, mostMonths } from '../../shared/job/shop/overTime.ts';
import type { Database } from './database.ts';

/** The last months in which anything was begun, the earliest first: read off the summaries, no notebook is opened. */
export const shopOverTime = ({ sql }: Pick<Database, 'sql'>): readonly Month[] =>
  sql
    .prepare<[number], Month>(`
      SELECT substr(started, 1, 7) AS month, count(*) AS builds, count(changes) AS right,
        coalesce(sum(trials) FILTER (WHERE changes IS NOT NULL), 0) AS trials,
        count(*) FILTER (WHERE changes > 0) AS changed, count(*) FILTER (WHERE changes = 1) AS rightAfterOne
      FROM build_summary WHERE record IS NOT NULL AND lies <> 'thrown-away'
      GROUP BY month ORDER BY month DESC LIMIT ?`)
    .all(mostMonths)
    .toReversed();
