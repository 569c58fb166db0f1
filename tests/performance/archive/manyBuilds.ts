import type { Database } from '../../../src/main/store/database.ts';
import { writeManyBuilds } from '../../support/archive/benchRecords.ts';

/** So many builds are written as a bench writes them; the others are these again under new names, copied inside the database. */
const written = 50;

/**
 * Records of a shop with so many builds, each with readings of its own. What the copies say and read is what the first fifty do;
 * their ids, lines and row numbers are their own.
 * @returns rows of readings each
 */
export function manyBuilds(database: Database, count: number, sessions: number): number {
  const rows = writeManyBuilds(database, Math.min(count, written), sessions);
  const { sql } = database;
  const [lines, seqs] = [
    Number(sql.prepare('SELECT max(line) FROM notebook_entry').pluck().get()),
    Number(sql.prepare('SELECT max(seq) FROM journal').pluck().get()),
  ];
  for (let copy = 1; copy * written < count; copy += 1)
    sql.transaction(() => {
      sql.prepare(copyRows).run(copy * seqs, seqs);
      const shift = { lines: copy * lines, upto: lines, seqs: copy * seqs, builds: copy * written };
      sql.prepare(copyEntries).run(shift);
      sql.prepare(copySummaries).run(shift);
    })();
  return rows;
}

/** A number from here is a floating one there. */
const copyRows = `
  INSERT INTO journal (seq, gauge, kind, t, at, value, unit, raw, note)
  SELECT seq + CAST(? AS INTEGER), gauge, kind, t, at, value, unit, raw, note FROM journal WHERE seq <= ?`;

const renamed = (build: string): string => `'many-' || (substr(${build}, 6) + CAST(@builds AS INTEGER))`;

const copyEntries = `
  INSERT INTO notebook_entry (line, id, build, version, at, by, deed, bench)
  SELECT line + CAST(@lines AS INTEGER), replace(id, build, ${renamed('build')}), ${renamed('build')}, version, at, by,
    CASE WHEN json_extract(deed, '$.how.stretch.from') IS NULL THEN named
      ELSE json_set(named, '$.how.stretch.from', json_extract(deed, '$.how.stretch.from') + CAST(@seqs AS INTEGER),
        '$.how.stretch.to', json_extract(deed, '$.how.stretch.to') + CAST(@seqs AS INTEGER)) END, bench
  FROM (SELECT *, replace(deed, '"' || build || '-e', '"' || ${renamed('build')} || '-e') AS named FROM notebook_entry WHERE line <= @upto)`;

const same = 'version, lies, stage, next_do, started, trials, changes, comeback, axle, customer, gear_set, teeth, hand';

const copySummaries = `
  INSERT INTO build_summary (build, last, upto, ${same}, record, problem, words)
  SELECT ${renamed('build')}, last + CAST(@lines AS INTEGER), upto + CAST(@lines AS INTEGER), ${same}, json_set(record, '$.id', ${renamed('build')}), problem,
    replace(words, build, ${renamed('build')})
  FROM build_summary WHERE last <= @upto`;
