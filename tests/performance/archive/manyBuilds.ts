import { packBlock, unpackBlock, type Block } from '../../../src/main/journal/blocks/block.ts';
import { settleStep } from '../../../src/main/journal/settle.ts';
import type { StoredRow } from '../../../src/main/journal/storedRow.ts';
import type { Database } from '../../../src/main/store/database.ts';
import { writeManyBuilds } from '../../support/archive/benchRecords.ts';

/** So many builds are written as a bench writes them; the others are these again under new names, copied inside the database. */
const written = 50;

/**
 * Records of a shop with so many builds, each with readings of its own, packed as a bench at rest packs them. What the copies say
 * and read is what the first fifty do; their ids, lines and row numbers are their own.
 * @returns rows of readings each
 */
export function manyBuilds(database: Database, count: number, sessions: number): number {
  const each = writeManyBuilds(database, Math.min(count, written), sessions);
  const { sql } = database;
  const whole = (what: string): number => Number(sql.prepare(`SELECT ${what}`).pluck().get());
  const lines = whole('max(line) FROM notebook_entry');
  const seqs = whole('max(seq) FROM journal');
  const blocks = packed(database, seqs);
  const insert = sql.prepare(
    'INSERT INTO journal_block (from_seq, to_seq, rows, format, crc, bytes) VALUES (@from_seq, @to_seq, @rows, @format, @crc, @bytes)',
  );
  for (let copy = 1; copy * written < count; copy += 1)
    sql.transaction(() => {
      for (const rows of blocks) insert.run(packBlock(rows.map((row) => shifted(row, copy * seqs))));
      const shift = { lines: copy * lines, upto: lines, seqs: copy * seqs, builds: copy * written };
      sql.prepare(copyEntries).run(shift);
      sql.prepare(copySummaries).run(shift);
    })();
  return each;
}

/** Packs what the measurements rest on, as the bench does when it has time, and gives the rows of every block. */
function packed(database: Database, safe: number): readonly (readonly StoredRow[])[] {
  const { sql } = database;
  sql.exec(keepWhatIsNamed);
  while (settleStep(database, { safe, beforeAt_ms: 0 }).more);
  const blocks = sql.prepare<[], Block>('SELECT * FROM journal_block ORDER BY from_seq').all();
  return blocks.map((block) => unpackBlock(block, { bytes: true }) ?? []);
}

const keepWhatIsNamed = `
  INSERT OR IGNORE INTO kept (from_seq, to_seq, because)
  SELECT DISTINCT json_extract(deed, '$.how.stretch.from'), json_extract(deed, '$.how.stretch.to'), 'measured'
  FROM notebook_entry WHERE json_extract(deed, '$.how.stretch.from') IS NOT NULL`;

const shifted = ([seq, gauge, kind, t, at, value, unit, raw, note]: StoredRow, by: number): StoredRow => [
  seq + by,
  gauge,
  kind,
  t,
  at,
  value,
  unit,
  raw,
  note,
];

/** A number from here is a floating one there. */
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
