import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Writes a file whole or not at all: under another name first, on disk, then in one step in place of what was there. A full
 * disk or a power cut leaves the earlier file as it was, or none. For its owner alone.
 * @throws what the disk says.
 */
export function writeWhole(file: string, content: string | Uint8Array): void {
  const beside = `${file}.part`;
  try {
    const opened = openSync(beside, 'w', 0o600);
    try {
      const bytes = typeof content === 'string' ? Buffer.from(content) : content;
      for (let written = 0; written < bytes.length;) written += writeSync(opened, bytes, written);
      fsyncSync(opened);
    } finally {
      closeSync(opened);
    }
    renameSync(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
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
