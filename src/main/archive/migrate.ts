import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Inside, Way } from './connect.ts';
import type { Step } from './shape/step.ts';
import { steps } from './shape/steps.ts';

/** What was done to an archive's shape. */
interface Migrated {
  /** Steps it has had now. */
  readonly steps: number;
  /** The names of those taken just now. */
  readonly taken: readonly string[];
}

/** One owner at a time raises the shape; any number of our own. */
const lock = 0x61786c65;

/**
 * Makes the archive, or brings it up to date: each step once, all of those that lack or none. For the owner of the database
 * alone; a bench never changes the shape.
 * @param known for tests: the steps this program knows
 */
export async function migrate(way: Way, known: readonly Step[] = steps): Promise<Result<Migrated>> {
  return way.begin(async (inside): Promise<Result<Migrated>> => {
    await inside`SELECT pg_advisory_xact_lock(${lock})`;
    if (!(await hasRole(inside))) {
      if (!(await mayMakeRoles(inside))) return fail(noRole);
      await inside`CREATE ROLE axlewright_bench NOLOGIN`;
    }
    await inside`CREATE SCHEMA IF NOT EXISTS axlewright`;
    await inside`CREATE TABLE IF NOT EXISTS axlewright.step
      (number int PRIMARY KEY, name text NOT NULL, must_be_known boolean NOT NULL, at timestamptz NOT NULL DEFAULT now())`;
    const had = await stepsHad(inside);
    if (had > known.length) return fail(newerArchive(had, known.length));
    await inside`SET LOCAL search_path = axlewright, public`;
    const taken = known.slice(had);
    for (const [index, { name, sql, mustBeKnown = false }] of taken.entries()) {
      await inside.unsafe(sql);
      await inside`INSERT INTO axlewright.step (number, name, must_be_known) VALUES (${had + index + 1}, ${name}, ${mustBeKnown})`;
    }
    // Tables of later steps are a bench's to read like the first ones.
    await inside`GRANT SELECT ON ALL TABLES IN SCHEMA axlewright TO axlewright_bench`;
    return ok({ steps: known.length, taken: taken.map(({ name }) => name) });
  });
}

async function stepsHad(inside: Inside): Promise<number> {
  const [row] = await inside<{ had: number }[]>`SELECT coalesce(max(number), 0)::int AS had FROM axlewright.step`;
  return row?.had ?? 0;
}

const hasRole = async (inside: Inside): Promise<boolean> =>
  (await inside`SELECT FROM pg_roles WHERE rolname = 'axlewright_bench'`).length > 0;

const mayMakeRoles = async (inside: Inside): Promise<boolean> =>
  (await inside`SELECT FROM pg_roles WHERE rolname = session_user AND (rolsuper OR rolcreaterole)`).length > 0;

/**
 * Whether this program may write into an archive: it has all of the steps this program knows, and none beyond them that must be
 * known. A bench that is older than its archive works on with what it knows.
 */
export async function shapeProblem(way: Way, known = steps.length): Promise<Problem | undefined> {
  const [row] = await way<{ had: number; least: number }[]>`
    SELECT coalesce(max(number), 0)::int AS had, coalesce(max(number) FILTER (WHERE must_be_known), 0)::int AS least
    FROM axlewright.step`;
  const { had, least } = row ?? { had: 0, least: 0 };
  if (had < known) return olderArchive(had, known);
  return least > known ? newerArchive(had, known) : undefined;
}

const olderArchive = (had: number, known: number): Problem => ({
  kind: 'archive-older',
  sentence: `The archive is at step ${had} of its shape, and this bench needs ${known}.`,
  remedy: 'Run archive migrate there with this program, as its owner. Until then everything waits here.',
});

const newerArchive = (had: number, known: number): Problem => ({
  kind: 'archive-newer',
  sentence: `The archive is at step ${had} of its shape, and this program knows ${known}.`,
  remedy: 'Put the newer program in. Until then everything waits here.',
});

const noRole: Problem = {
  kind: 'no-bench-role',
  sentence: 'The database has no role axlewright_bench, and this role may make none.',
  remedy: 'Have it made once by the server’s administrator: CREATE ROLE axlewright_bench NOLOGIN.',
};
