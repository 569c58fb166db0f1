import { readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { PageFiles } from './policy.ts';

/** Lists the built screens once. A folder without them is a plain Problem: they have not been built. */
export function listPageFiles(folder: string): Result<PageFiles> {
  try {
    const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
    const paths = files.map((entry) => join(entry.parentPath, entry.name));
    const map = new Map(paths.map((path) => [`/${relative(folder, path).split(sep).join('/')}`, path] as const));
    if (map.has('/index.html')) return ok(map);
  } catch {
    // Falls through to the one sentence below: a missing folder and an empty one ask for the same thing.
  }
  return fail({
    kind: 'no-screens',
    sentence: `The screens are not in ${folder}.`,
    remedy: 'Start the bench with npm start, which builds them first.',
  });
}
