import { settleStep } from '../../src/main/journal/settle.ts';
import type { Database } from '../../src/main/store/database.ts';

/** Settles everything that can be, as a bench does in its rests. @returns readings thinned away, rows packed, and the steps it took */
export function settleAll(database: Database, beforeAt_ms: number, safe = Number.MAX_SAFE_INTEGER) {
  const all = { removed: 0, packed: 0, steps: 0 };
  for (let more = true; more; all.steps += 1) {
    const step = settleStep(database, { safe, beforeAt_ms });
    all.removed += step.removed;
    all.packed += step.packed;
    more = step.more;
  }
  return all;
}
