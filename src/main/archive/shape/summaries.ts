import type { Step } from './step.ts';

/**
 * What the list of builds is made of. It is worked out from the entries and can be made anew, so it is the one thing that
 * changes: by `sum_up`, for a bench that has sent something of the build, from at least as many entries as before. `turn` rises
 * with every change, in the order in which the archive heard of them.
 */
export const summaries: Step = {
  name: 'summaries of builds, and what finds them',
  sql: `
    CREATE EXTENSION IF NOT EXISTS pg_trgm SCHEMA public;
    CREATE SEQUENCE summary_turn;
    CREATE TABLE summary (
      build   int PRIMARY KEY REFERENCES build,
      entries int NOT NULL,
      sent_by int NOT NULL REFERENCES bench,
      turn    bigint NOT NULL DEFAULT nextval('axlewright.summary_turn'),
      record  jsonb NOT NULL,
      heading text NOT NULL,
      words   text NOT NULL
    );
    CREATE INDEX summary_turn_of ON summary (turn DESC);
    CREATE INDEX summary_words ON summary USING gin (words public.gin_trgm_ops);
    CREATE INDEX summary_heading ON summary USING gin (heading public.gin_trgm_ops);

    CREATE FUNCTION sum_up(of_build int, by_bench int, from_entries int, told jsonb, head text, typed text) RETURNS void
    LANGUAGE plpgsql SECURITY DEFINER SET search_path = axlewright, public, pg_temp AS $$
    BEGIN
      IF NOT speaks_as(by_bench) THEN RAISE insufficient_privilege; END IF;
      IF NOT EXISTS (SELECT FROM entry WHERE build = of_build AND sent_by = by_bench) THEN RAISE insufficient_privilege; END IF;
      INSERT INTO summary (build, entries, sent_by, record, heading, words)
      VALUES (of_build, from_entries, by_bench, told, head, typed)
      ON CONFLICT (build) DO UPDATE SET entries = excluded.entries, sent_by = excluded.sent_by, turn = excluded.turn,
        record = excluded.record, heading = excluded.heading, words = excluded.words
      WHERE summary.entries <= excluded.entries;
      PERFORM pg_notify('axlewright_builds', (SELECT id FROM build WHERE number = of_build));
    END $$;

    CREATE FUNCTION keeps_archive() RETURNS boolean LANGUAGE sql STABLE SECURITY DEFINER
    SET search_path = axlewright, pg_temp AS $$
      SELECT rolsuper OR pg_has_role(session_user, nspowner, 'MEMBER')
      FROM pg_namespace, pg_roles WHERE nspname = 'axlewright' AND rolname = session_user
    $$;
    -- Who may speak as a bench: the role it came with. Whoever keeps the archive may for all: nothing can keep them from it.
    CREATE FUNCTION speaks_as(as_bench int) RETURNS boolean LANGUAGE sql STABLE SECURITY DEFINER
    SET search_path = axlewright, pg_temp AS $$
      SELECT EXISTS (SELECT FROM bench WHERE number = as_bench AND role = session_user) OR keeps_archive()
    $$;
  `,
};
