import type { Step } from './step.ts';

/**
 * What benches send. Nothing here is ever changed or removed: entries are known by their id, readings by the stretch of a bench's
 * journal, photos and certificates by the hash of their bytes. `sent_by` is the bench that sent it, `wrote` the one that wrote an
 * entry where that is another. `place` is the number of entries that stood before it in the notebook it came from: who has seen
 * an entry writes behind it, so that places keep every bench's order without asking a clock.
 */
export const firstTables: Step = {
  name: 'benches, builds, entries, readings, photos, certificates',
  sql: `
    CREATE TABLE archive (id uuid PRIMARY KEY DEFAULT gen_random_uuid(), at timestamptz NOT NULL DEFAULT now());
    INSERT INTO archive DEFAULT VALUES;

    CREATE TABLE bench (
      number int GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
      id     text NOT NULL UNIQUE,
      role   name UNIQUE,
      at     timestamptz NOT NULL DEFAULT now()
    );
    CREATE TABLE bench_called (
      number bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
      bench  int NOT NULL REFERENCES bench,
      name   text NOT NULL,
      key    text NOT NULL,
      at     timestamptz NOT NULL DEFAULT now()
    );
    CREATE INDEX bench_called_of ON bench_called (bench, number DESC);

    CREATE TABLE build (
      number  int GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
      id      text NOT NULL UNIQUE,
      sent_by int NOT NULL REFERENCES bench
    );
    CREATE TABLE entry (
      id      text PRIMARY KEY,
      build   int NOT NULL REFERENCES build,
      place   int NOT NULL,
      sent_by int NOT NULL REFERENCES bench,
      wrote   text,
      format  smallint NOT NULL,
      sha256  bytea NOT NULL CHECK (length(sha256) = 32),
      body    bytea NOT NULL,
      at      timestamptz NOT NULL DEFAULT now()
    );
    CREATE INDEX entry_of ON entry (build, place);
    CREATE TABLE stretch (
      bench    text NOT NULL,
      gauge    text NOT NULL,
      from_seq bigint NOT NULL,
      to_seq   bigint NOT NULL CHECK (to_seq >= from_seq),
      build    int NOT NULL REFERENCES build,
      rows     int NOT NULL CHECK (rows > 0),
      sent_by  int NOT NULL REFERENCES bench,
      format   smallint NOT NULL,
      sha256   bytea NOT NULL CHECK (length(sha256) = 32),
      body     bytea NOT NULL,
      PRIMARY KEY (bench, gauge, from_seq, to_seq)
    );
    CREATE INDEX stretch_of ON stretch (build);
    CREATE TABLE photo (
      sha256  bytea PRIMARY KEY,
      sent_by int NOT NULL REFERENCES bench,
      at      text NOT NULL,
      width   int NOT NULL,
      height  int NOT NULL,
      jpeg    bytea NOT NULL CHECK (sha256(jpeg) = sha256)
    );
    CREATE TABLE certificate (
      sha256  bytea PRIMARY KEY,
      build   int NOT NULL REFERENCES build,
      entry   text NOT NULL,
      sent_by int NOT NULL REFERENCES bench,
      name    text NOT NULL,
      pdf     bytea NOT NULL CHECK (sha256(pdf) = sha256)
    );
    CREATE INDEX certificate_of ON certificate (build);

    -- What comes is packed already: to pack it once more costs time and gains nothing.
    ALTER TABLE entry ALTER COLUMN body SET STORAGE EXTERNAL;
    ALTER TABLE stretch ALTER COLUMN body SET STORAGE EXTERNAL;
    ALTER TABLE photo ALTER COLUMN jpeg SET STORAGE EXTERNAL;
    ALTER TABLE certificate ALTER COLUMN pdf SET STORAGE EXTERNAL;
  `,
};
