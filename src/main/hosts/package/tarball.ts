import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { type Sealing, settle, tool } from './sealing.ts';

/** The payload as one archive that runs from wherever it is unpacked: for systems without Debian's packages. */
export function sealTarball({ payload, version, epoch, out, quick }: Sealing): string {
  const file = join(out, `axlewright-${version}-linux-x64.tar.gz`);
  const plain = `${payload}.tar`;
  settle(payload, epoch);
  const same = ['--sort=name', '--format=gnu', `--mtime=@${epoch}`, '--owner=0', '--group=0', '--numeric-owner'];
  tool('tar', [...same, '-cf', plain, '-C', dirname(payload), basename(payload)], epoch);
  writeFileSync(`${file}.part`, gzipSync(readFileSync(plain), { level: quick ? 1 : 9 }));
  renameSync(`${file}.part`, file);
  rmSync(plain);
  return file;
}
