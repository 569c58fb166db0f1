import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { takeIn, type TakenIn } from '../exports/takeIn.ts';
import type { Database } from '../store/database.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import type { Identity } from '../store/identity.ts';
import { folderInside, writeWhole } from '../writeWhole.ts';
import type { Way } from './connect.ts';
import { fetchBuild, papersOf } from './fetch.ts';

/** The records a build is brought home to. */
export interface Home {
  readonly database: Database;
  readonly identity: Identity;
}

/** Brings a build out of the archive into the records, with its readings, photos and papers; what is here already stays as it is. */
export async function fetchHome(way: Way, { database, identity }: Home, build: string): Promise<Result<TakenIn>> {
  const bundle = await fetchBuild(way, build);
  if (!bundle.ok) return bundle;
  const papers = await papersOf(way, build);
  const taken = takeIn(database, identity, bundle.value, { bothWent: 'joined' });
  if (!taken.ok) return taken;
  const kept = keepPapers(database.folder, papers);
  return kept.ok ? taken : kept;
}

/** The papers of certificates, none over one that is there; a name that is no plain one is left out. */
function keepPapers(
  folder: string,
  papers: readonly { readonly name: string; readonly pdf: Uint8Array }[],
): Result<void> {
  try {
    for (const { name, pdf } of papers) {
      if (!/^[^/\\]+\.pdf$/u.test(name) || name.startsWith('.')) continue;
      const file = join(folderInside(folder, 'certificates'), name);
      if (!existsSync(file)) writeWhole(file, pdf);
    }
    return ok(undefined);
  } catch (error) {
    return fail(databaseProblem(error, folder));
  }
}
