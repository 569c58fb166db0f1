// The built screens: whether they are older than what they are built from.
import { readdirSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Everything the screens, and Electron's programs that are built beside them, are made of. */
const sources = ['src', 'hardware-sim', 'electron.config.ts', 'package.json', 'package-lock.json'];
const stampIn = (/** @type {string} */ root) => join(root, 'out', '.built');

/** Whether no source was changed, added or taken away since they were built. @param {string} root */
export function screensAreNew(root) {
  const built = changedAt(stampIn(root));
  if (built === undefined || changedAt(join(root, 'out', 'renderer', 'index.html')) === undefined) return false;
  return sources.every((source) => newestIn(join(root, source)) < built);
}

/**
 * Builds them with `build`, and notes when that began: what is changed meanwhile counts as newer.
 * @param {string} root
 * @param {() => number} build gives 0 where it went well
 */
export function buildNoting(root, build) {
  const begun = new Date();
  rmSync(stampIn(root), { force: true });
  const failed = build();
  if (failed !== 0) return failed;
  writeFileSync(stampIn(root), '');
  utimesSync(stampIn(root), begun, begun);
  return 0;
}

/** A folder's own time counts too: it changes when a file in it is taken away. @param {string} path @returns {number} */
function newestIn(path) {
  const own = statSync(path);
  if (!own.isDirectory()) return own.mtimeMs;
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestIn(join(path, name))), own.mtimeMs);
}

/** @param {string} file */
function changedAt(file) {
  try {
    return statSync(file).mtimeMs;
  } catch {
    return undefined;
  }
}
