import type { Migration } from '../migration.ts';

/**
 * The journal: one row for everything a gauge sent and everything that happened to it.
 * `t` is monotonic seconds of the run that wrote the row, `at` wall milliseconds, `value` and `unit` as received.
 * Gauges are numbered so that a row stays small: a day at 100 readings/s is close to three million rows.
 */
export const journalTables: Migration = {
  name: 'the journal of readings',
  sql: `
    CREATE TABLE journal_gauge (
      number INTEGER PRIMARY KEY,
      gauge  TEXT NOT NULL UNIQUE
    ) STRICT;
    CREATE TABLE journal (
      seq   INTEGER PRIMARY KEY,
      gauge INTEGER REFERENCES journal_gauge (number),
      kind  TEXT NOT NULL,
      t     REAL NOT NULL,
      at    INTEGER NOT NULL,
      value REAL,
      unit  TEXT,
      raw   BLOB,
      note  TEXT
    ) STRICT;
    CREATE TABLE kept (
      from_seq INTEGER NOT NULL,
      to_seq   INTEGER NOT NULL CHECK (to_seq >= from_seq),
      because  TEXT NOT NULL,
      PRIMARY KEY (from_seq, to_seq, because)
    ) STRICT, WITHOUT ROWID;
  `,
};
