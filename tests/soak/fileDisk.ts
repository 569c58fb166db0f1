import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** An ext4 file system in a file, whose power can be cut. */
export interface FileDisk {
  readonly place: string;
  /**
   * The kernel shuts it down without flushing its log (ioctl EXT4_IOC_SHUTDOWN, from memory): everything not synced is gone.
   * @throws where the kernel refuses.
   */
  cut(): void;
  /** Mounts it again. @returns whether it could be. */
  again(): boolean;
  remove(): void;
}

const ran = (command: string, ...words: readonly string[]): boolean =>
  spawnSync(command, [...words], { stdio: 'ignore' }).status === 0;

const shutDown =
  'import fcntl,os,struct,sys;fcntl.ioctl(os.open(sys.argv[1],os.O_RDONLY),0x8004587D,struct.pack("I",2))';

/** Why there can be no cuts here; undefined where there can. */
export function whyNoCuts(): string | undefined {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return 'it needs root on Linux';
  const lacking = ['mkfs.ext4', 'mount', 'umount', 'python3'].filter((command) => !ran('which', command));
  return lacking.length === 0 ? undefined : `${lacking.join(', ')} cannot be found`;
}

/** Undefined where the system lets nobody mount a file. */
export function fileDisk(): FileDisk | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-cuts-'));
  const [image, place] = [join(folder, 'disk.img'), join(folder, 'disk')];
  mkdirSync(place);
  const mount = (): boolean => ran('mount', '-o', 'loop,noatime', image, place);
  const remove = (): void => {
    ran('umount', '-l', place);
    rmSync(folder, { recursive: true, force: true });
  };
  if (!ran('truncate', '-s', '512M', image) || !ran('mkfs.ext4', '-q', image) || !mount()) {
    remove();
    return undefined;
  }
  return {
    place,
    cut() {
      if (!ran('python3', '-c', shutDown, place)) throw new Error('the disk could not be shut down');
    },
    again: () => ran('umount', '-l', place) && mount(),
    remove,
  };
}
