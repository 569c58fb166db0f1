import type { Step } from './step.ts';

/**
 * A line of the list is made from no more entries than are there: a bench that claims more, by a slip or on purpose, would have the
 * last word about a build for ever.
 */
export const countedLines: Step = {
  name: 'lines of the list made from what is there',
  sql: `
    CREATE OR REPLACE FUNCTION sum_up(of_build int, by_bench int, from_entries int, told jsonb, head text, typed text) RETURNS void
    LANGUAGE plpgsql SECURITY DEFINER SET search_path = axlewright, public, pg_temp AS $$
    DECLARE counted int;
    BEGIN
      IF NOT speaks_as(by_bench) THEN RAISE insufficient_privilege; END IF;
      IF NOT EXISTS (SELECT FROM entry WHERE build = of_build AND sent_by = by_bench) THEN RAISE insufficient_privilege; END IF;
      SELECT least(from_entries, count(*)) INTO counted FROM entry WHERE build = of_build;
      INSERT INTO summary (build, entries, sent_by, record, heading, words)
      VALUES (of_build, counted, by_bench, told, head, typed)
      ON CONFLICT (build) DO UPDATE SET entries = excluded.entries, sent_by = excluded.sent_by, turn = excluded.turn,
        record = excluded.record, heading = excluded.heading, words = excluded.words
      WHERE summary.entries <= excluded.entries;
      PERFORM pg_notify('axlewright_builds', (SELECT id FROM build WHERE number = of_build));
    END $$;
    UPDATE summary SET entries = least(entries, (SELECT count(*) FROM entry WHERE entry.build = summary.build));
  `,
};
