import { setTimeout as after } from 'node:timers/promises';
import { onWay, type Reach, type Way } from '../../../src/main/archive/connect.ts';
import { greet } from '../../../src/main/archive/greet.ts';
import { wait_ms } from '../../../src/main/archive/patience.ts';
import { putLoad } from '../../../src/main/archive/put.ts';
import { ok, type Result } from '../../../src/shared/basics/result.ts';
import { valueOf } from '../../support/bench/open.ts';

/**
 * Every bench has one entry to send, all at once, each by a role and a connection of its own; the server takes a hundred at a time,
 * as it comes. Who is sent away waits as a bench waits.
 */
export async function manyBenches(
  reachAs: (number: number) => Reach,
  benches: number,
  print: (line: string) => void,
): Promise<void> {
  let refused = 0;
  const began = performance.now();
  const send = async (number: number): Promise<void> => {
    for (let failures = 1; ; failures += 1) {
      const sent = await onWay(reachAs(number), (way) => oneEntry(way, number));
      if (sent.ok) return;
      if (sent.problem.kind !== 'archive-busy' && sent.problem.kind !== 'archive-away')
        throw new Error(sent.problem.sentence);
      refused += 1;
      await after(wait_ms(failures, Math.random()));
    }
  };
  await Promise.all(Array.from({ length: benches }, (_, n) => send(n + 1)));
  const took_s = (performance.now() - began) / 1000;
  const there = valueOf(
    await onWay(reachAs(1), async (way) => {
      const [row] = await way<{ count: number }[]>`
        SELECT count(DISTINCT sent_by)::int AS count FROM entry WHERE id LIKE 'entry-of-%'`;
      return ok(row?.count ?? 0);
    }),
  );
  print(
    `${benches} benches at once, a role and an entry each, a server of a hundred connections: ${took_s.toFixed(1)} s until ${there} of ${benches} were there; ${refused} tries were sent away and made again`,
  );
}

/** The first bench of this measurement may have come before, by another name: a role belongs to one bench. */
async function oneEntry(way: Way, number: number): Promise<Result<unknown>> {
  const [known] = await way<{ id: string }[]>`SELECT id FROM bench WHERE role = session_user`;
  const id = known?.id ?? `bench-of-many-${number}`;
  const greeted = await greet(way, { id, name: `Bench ${number}`, key: 'k'.repeat(43) });
  if (!greeted.ok) return greeted;
  const entry = {
    line: 1,
    id: `entry-of-${number}`,
    build: `build-of-${number}`,
    sha256: Buffer.alloc(32),
    wrote: null,
    place: 0,
    body: Buffer.from('x'),
    stretch: undefined,
    photo: undefined,
    certificate: undefined,
  };
  return ok(await putLoad(way, greeted.value.me, { entries: [entry], summaries: [] }));
}
