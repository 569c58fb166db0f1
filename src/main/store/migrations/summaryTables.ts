import type { Migration } from '../migration.ts';

/**
 * What is read out of notebooks so that nobody has to read them all: a line for each build, the words typed in it, and its spec
 * sheets. Everything here can be made anew from the notebooks, and is, where `version` or `upto` is behind.
 * `upto` is the last line of the notebook the summary was made from, `last` the last line there is.
 */
export const summaryTables: Migration = {
  name: 'summaries of builds',
  sql: `
    CREATE TABLE build_summary (
      number    INTEGER PRIMARY KEY,
      build     TEXT NOT NULL UNIQUE,
      last      INTEGER NOT NULL,
      upto      INTEGER NOT NULL,
      version   INTEGER NOT NULL,
      lies      TEXT NOT NULL,
      stage     TEXT NOT NULL,
      next_do   TEXT NOT NULL,
      started   TEXT NOT NULL,
      trials    INTEGER NOT NULL,
      changes   INTEGER,
      certified INTEGER,
      comeback  TEXT,
      axle      TEXT NOT NULL,
      customer  TEXT NOT NULL,
      gear_set  TEXT NOT NULL,
      teeth     TEXT NOT NULL,
      hand      TEXT NOT NULL,
      record    TEXT,
      problem   TEXT,
      words     TEXT NOT NULL
    ) STRICT;
    CREATE INDEX build_summary_last ON build_summary (last);
    CREATE INDEX build_summary_stage ON build_summary (lies, stage, next_do);
    CREATE INDEX build_summary_started ON build_summary (started, trials, changes, stage);
    CREATE INDEX build_summary_comeback ON build_summary (comeback) WHERE comeback IS NOT NULL;
    CREATE INDEX build_summary_axle ON build_summary (axle, last);
    CREATE INDEX build_summary_customer ON build_summary (customer, last);
    CREATE INDEX build_summary_set ON build_summary (gear_set, last);
    CREATE INDEX build_summary_alike ON build_summary (teeth, certified);
    CREATE INDEX build_summary_hand ON build_summary (hand, certified);
    CREATE VIRTUAL TABLE build_words USING fts5(words, content='', contentless_delete=1, tokenize='trigram');
    CREATE TABLE build_sheet (
      build  TEXT NOT NULL,
      name   TEXT NOT NULL,
      line   INTEGER NOT NULL,
      record TEXT NOT NULL,
      PRIMARY KEY (build, name)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX build_sheet_name ON build_sheet (name, line);
  `,
};
