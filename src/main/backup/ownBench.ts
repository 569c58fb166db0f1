import type Sqlite from 'better-sqlite3';
import type { BenchSigning } from '../../shared/job/certifying/certificateData.ts';
import { knownBenches } from '../store/identity.ts';

/** Whose database it is. @throws where no bench has ever opened it. */
export function ownBench(sql: Sqlite.Database): BenchSigning {
  const own = knownBenches({ sql }).findLast((bench) => bench.own);
  if (own === undefined) throw new Error('a database that belongs to no bench');
  const { id, name, key } = own;
  return { id, name, key };
}
