import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { BenchSigning } from '../../shared/job/certifying/certificateData.ts';
import type { Way } from './connect.ts';
import { shapeProblem } from './migrate.ts';

/** Who a bench is in an archive. */
export interface Greeted {
  /** The archive's own id: another one is another archive, whatever its address. */
  readonly archive: string;
  /** The bench's number in it. */
  readonly me: number;
}

/**
 * Says who this bench is. The first time it is written down with the role it comes by: from then on that role can send as this
 * bench alone, and nobody else as it.
 */
export async function greet(way: Way, bench: BenchSigning): Promise<Result<Greeted>> {
  const strange = await shapeProblem(way);
  if (strange !== undefined) return fail(strange);
  const me = await ownNumber(way, bench);
  if (!me.ok) return me;
  const [called] = await way<{ name: string; key: string }[]>`
    SELECT name, key FROM bench_called WHERE bench = ${me.value} ORDER BY number DESC LIMIT 1`;
  if (called?.name !== bench.name || called.key !== bench.key)
    await way`INSERT INTO bench_called ${way({ bench: me.value, name: bench.name, key: bench.key })}`;
  const [archive] = await way<{ id: string }[]>`SELECT id FROM archive`;
  return archive === undefined ? fail(noArchive) : ok({ archive: archive.id, me: me.value });
}

interface Known {
  readonly number: number;
  readonly id: string;
  readonly isMine: boolean;
  readonly mayAll: boolean;
}

async function ownNumber(way: Way, { id }: BenchSigning): Promise<Result<number>> {
  const find = (): Promise<Known[]> => way<Known[]>`
    SELECT number, id, coalesce(role = session_user, false) AS "isMine", keeps_archive() AS "mayAll" FROM bench
    WHERE id = ${id} OR role = session_user`;
  let known = await find();
  if (!known.some((one) => one.id === id) && !known.some(({ isMine }) => isMine)) {
    await way`INSERT INTO bench (id, role) SELECT ${id}, CASE WHEN keeps_archive() THEN NULL ELSE session_user END
      ON CONFLICT DO NOTHING`;
    known = await find();
  }
  const own = known.find((one) => one.id === id);
  if (own !== undefined && (own.isMine || own.mayAll)) return ok(own.number);
  return fail(own === undefined ? roleOfAnother(known.find(({ isMine }) => isMine)?.id) : benchOfAnother);
}

const roleOfAnother = (bench: string | undefined): Problem => ({
  kind: 'role-of-another',
  sentence: `This role of the archive belongs to another bench${bench === undefined ? '' : ` (${bench})`}.`,
  remedy: 'Give each bench a role of its own.',
});

const benchOfAnother: Problem = {
  kind: 'bench-of-another',
  sentence: 'This bench came to the archive by another role before.',
  remedy:
    'Use that role. Where it was given up, whoever keeps the archive can name the new one in its table of benches.',
};

const noArchive: Problem = {
  kind: 'archive-empty',
  sentence: 'The archive has lost its own name.',
  remedy: 'Bring it back from its backup.',
};
