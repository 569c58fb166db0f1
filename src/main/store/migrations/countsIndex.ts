import type { Migration } from '../migration.ts';

/** What the counts of builds are read off, so that they are counted without a look at the summaries themselves. */
export const countsIndex: Migration = {
  name: 'counts of builds',
  sql: `
    CREATE INDEX build_summary_counts
      ON build_summary (lies, stage, certified, next_do, version, upto, last, build);
  `,
};
