import { statSync } from 'node:fs';
import { isAbsolute, relative, resolve } from 'node:path';
import type { Problem } from '../../shared/basics/result.ts';
import { noPlace } from './problems.ts';

export function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
}

/** Why backups of these records cannot go into a folder; undefined where they can. */
export function whyNotThere(folder: string, records: string): Problem | undefined {
  if (!isAbsolute(folder)) return { ...noPlace(folder), sentence: `"${folder}" is not a full path.` };
  if (!isFolder(folder)) return noPlace(folder);
  const inside = relative(resolve(records), resolve(folder));
  return inside === '' || !(inside.startsWith('..') || isAbsolute(inside)) ? insideRecords(folder) : undefined;
}

const insideRecords = (folder: string): Problem => ({
  kind: 'no-backup-folder',
  field: 'folder',
  sentence: `${folder} lies among the records themselves and would be lost with them.`,
  remedy: 'Choose a folder on another disk, or a stick.',
});

/** Then a disk that fails takes both. */
export function isOnSameDisk(folder: string, records: string): boolean {
  try {
    return statSync(folder).dev === statSync(records).dev;
  } catch {
    return false;
  }
}
