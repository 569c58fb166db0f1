import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Disk {
  readonly folder: string;
  /** Whether it is a disk of its own, that may be filled. */
  readonly own: boolean;
  remove(): void;
}

const ran = (command: string, ...words: readonly string[]): boolean =>
  spawnSync(command, [...words], { stdio: 'ignore' }).status === 0;

/** A small disk of its own in memory where the system lets us mount one (as root); else a plain folder. */
export function smallDisk(size_MB: number): Disk {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-soak-'));
  const own =
    process.platform === 'linux' &&
    process.getuid?.() === 0 &&
    ran('mount', '-t', 'tmpfs', '-o', `size=${size_MB}m`, 'tmpfs', folder);
  return {
    folder,
    own,
    remove: () => {
      if (own) ran('umount', '-l', folder);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
