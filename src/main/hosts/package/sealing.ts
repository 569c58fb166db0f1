import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, lutimesSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { filesUnder } from './parts.ts';

/** What every kind of package is made from. */
export interface Sealing {
  /** The folder as a person gets it. */
  readonly payload: string;
  readonly version: string;
  /** Seconds since 1970 that every file is given, so that the same commit gives the same bytes. */
  readonly epoch: number;
  /** Where the package goes. */
  readonly out: string;
  /** Pressed lightly, for tests. */
  readonly quick: boolean;
}

/**
 * Runs a program of this system that packs.
 * @throws Error with what it said, or that it is not here.
 */
export function tool(program: string, words: readonly string[], epoch: number): void {
  const { status, stderr, error } = spawnSync(program, words, {
    encoding: 'utf8',
    env: { ...process.env, SOURCE_DATE_EPOCH: String(epoch), LC_ALL: 'C.UTF-8', TZ: 'UTC' },
  });
  if (error !== undefined) throw new Error(`${program} is needed here and is missing.`);
  if (status !== 0) throw new Error(`${program}: ${stderr.trim()}`);
}

/** Gives everything in a tree one date, and rights that do not depend on who made it. */
export function settle(tree: string, epoch: number): void {
  for (const entry of readdirSync(tree, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    if (entry.isDirectory()) chmodSync(path, 0o755);
    else if (entry.isFile()) chmodSync(path, (statSync(path).mode & 0o111) === 0 ? 0o644 : 0o755);
    lutimesSync(path, epoch, epoch);
  }
  chmodSync(tree, 0o755);
  lutimesSync(tree, epoch, epoch);
}

/** Bytes of all files in a tree. */
export const sizeOf = (tree: string): number =>
  readdirSync(tree, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .reduce((sum, entry) => sum + statSync(join(entry.parentPath, entry.name)).size, 0);

/** The list of sums a Debian package carries of its own files. */
export const sumsOf = (tree: string): string =>
  filesUnder(tree)
    .filter((path) => !path.startsWith('DEBIAN/'))
    .map(
      (path) =>
        `${createHash('md5')
          .update(readFileSync(join(tree, path)))
          .digest('hex')}  ${path}\n`,
    )
    .join('');
