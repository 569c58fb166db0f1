import type { Migration } from '../migration.ts';

/**
 * Rows of the journal that are settled, packed: those a measurement rests on, and those old enough to have been thinned. A row
 * stands either in the journal or in one block; blocks do not overlap. `packed` says that all rows of a kept stretch are in
 * blocks. Rows of before are packed later, a few at a time (journal/settle.ts), so that no start waits for them.
 */
export const blockTables: Migration = {
  name: 'blocks of the journal',
  sql: `
    CREATE TABLE journal_block (
      number   INTEGER PRIMARY KEY,
      from_seq INTEGER NOT NULL,
      to_seq   INTEGER NOT NULL CHECK (to_seq >= from_seq),
      rows     INTEGER NOT NULL,
      format   INTEGER NOT NULL,
      crc      INTEGER NOT NULL,
      bytes    BLOB NOT NULL
    ) STRICT;
    CREATE UNIQUE INDEX journal_block_to ON journal_block (to_seq);
    ALTER TABLE kept ADD COLUMN packed INTEGER NOT NULL DEFAULT 0;
    CREATE INDEX kept_not_packed ON kept (from_seq) WHERE packed = 0;
  `,
};
