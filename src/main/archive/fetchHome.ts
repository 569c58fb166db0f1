import { join } from 'node:path';
import { existsSync } from 'node:fs';
import { ok, type Result } from '../../shared/basics/result.ts';
import { takeIn, type TakenIn } from '../exports/takeIn.ts';
import type { Database } from '../store/database.ts';
import type { Identity } from '../store/identity.ts';
import { folderInside, writeWhole } from '../writeWhole.ts';
import type { Way } from './connect.ts';
import { fetchBuild, papersOf } from './fetch.ts';

/** The records a build is brought home to. */
interface Home {
  readonly database: Database;
  readonly identity: Identity;
}

/** Brings a build out of the archive into the records, with its readings, photos and papers; what is here already stays as it is. */
export async function fetchHome(way: Way, { database, identity }: Home, build: string): Promise<Result<TakenIn>> {
  const bundle = await fetchBuild(way, build);
  if (!bundle.ok) return bundle;
  const taken = takeIn(database, identity, bundle.value, { bothWent: 'joined' });
  if (!taken.ok) return taken;
  keepPapers(database.folder, await papersOf(way, build));
  return ok(taken.value);
}

/** The papers of certificates, none over one that is there; a name that is no plain one is left out. */
export function keepPapers(
  folder: string,
  papers: readonly { readonly name: string; readonly pdf: Uint8Array }[],
): void {
  for (const { name, pdf } of papers) {
    if (!/^[^/\\]+\.pdf$/u.test(name) || name.startsWith('.')) continue;
    const file = join(folderInside(folder, 'certificates'), name);
    if (!existsSync(file)) writeWhole(file, pdf);
  }
}
