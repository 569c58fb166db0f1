import { rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { type Sealing, settle, tool } from './sealing.ts';

/**
 * The payload as one archive that runs from wherever it is unpacked: for systems without Debian's packages. Pressed by xz,
 * because gzip leaves it a quarter larger.
 */
export function sealTarball({ payload, version, epoch, out, quick }: Sealing): string {
  const plain = join(out, `axlewright-${version}-linux-x64.tar`);
  const file = `${plain}.xz`;
  settle(payload, epoch);
  const same = ['--sort=name', '--format=gnu', `--mtime=@${epoch}`, '--owner=0', '--group=0', '--numeric-owner'];
  tool('tar', [...same, '-cf', plain, '-C', dirname(payload), basename(payload)], epoch);
  rmSync(file, { force: true });
  // One thread: with more, where the blocks end depends on the machine.
  tool('xz', ['--threads=1', quick ? '-0' : '-2', plain], epoch);
  return file;
}
