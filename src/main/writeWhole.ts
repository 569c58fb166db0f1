import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';

/**
 * Writes a file whole or not at all: under another name first, on disk, then in one step in place of what was there. A full
 * disk or a power cut leaves the earlier file as it was, or none. For its owner alone.
 * @throws what the disk says.
 */
export function writeWhole(file: string, content: string | Uint8Array): void {
  const beside = `${file}.part`;
  try {
    // Whatever lies there is taken away and not written into: it may be a link to somebody's file, or a pipe.
    rmSync(beside, { force: true });
    const opened = openSync(beside, 'wx', 0o600);
    try {
      const bytes = typeof content === 'string' ? Buffer.from(content) : content;
      for (let written = 0; written < bytes.length;) written += writeSync(opened, bytes, written);
      fsyncSync(opened);
    } finally {
      closeSync(opened);
    }
    renameSync(beside, file);
  } catch (error) {
    forget(beside);
    throw error;
  }
}

/** A folder of that name is left as it is. */
function forget(beside: string): void {
  try {
    rmSync(beside, { force: true });
  } catch {
    // What went wrong before this is what the person is told.
  }
}

/**
 * Makes a folder and those above it that are not there. Node's own way never ends where the system says that a folder cannot be
 * made because it is not there (below /proc; in a working directory that was deleted): seen with Node 24.
 * @throws what the disk says.
 */
export function makeFolder(folder: string, mode?: number): void {
  if (existsSync(folder)) return;
  const above = dirname(folder);
  if (above !== folder) makeFolder(above, mode);
  mkdirSync(folder, mode === undefined ? {} : { mode });
}

/**
 * A folder inside the data folder, for its owner alone. The data folder itself is not made: where it was taken away, another
 * in its place would keep it from coming back.
 * @throws what the disk says.
 */
export function folderInside(dataFolder: string, name: string): string {
  const folder = join(dataFolder, name);
  if (!existsSync(folder)) mkdirSync(folder, { mode: 0o700 });
  return folder;
}
