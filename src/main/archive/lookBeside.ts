import { whoElse } from './beside.ts';
import type { Way } from './connect.ts';
import { greet } from './greet.ts';
import type { Sender } from './send.ts';

/** Looks who else wrote in a build that is here, and notes it. @returns whether anybody did; false where the build is not here */
export async function lookBeside(way: Way, { database, notes, bench }: Sender, build: string): Promise<boolean> {
  const here = database.sql.prepare('SELECT 1 FROM notebook_entry WHERE build = ? LIMIT 1').get(build);
  if (here === undefined) return false;
  const greeted = await greet(way, bench());
  if (!greeted.ok) return false;
  const others = await whoElse(way, greeted.value.me, [build]);
  notes.noteBeside(greeted.value.archive, others);
  return others.length > 0;
}
