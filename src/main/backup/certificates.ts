import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { type About, certificatesName } from './form.ts';

type Certificates = About['certificates'];

/** Copies every certificate that is not there yet beside the backups, and names them all by their hashes. */
export function copyCertificates(from: string, into: string, bench: string): Certificates {
  const source = join(from, 'certificates');
  const target = join(into, certificatesName(bench));
  return namesIn(source).map((name) => {
    const sha256 = hashOf(join(source, name));
    if (!existsSync(target)) mkdirSync(target, { mode: 0o700 });
    const there = join(target, name);
    // The size tells a copy that was cut short; reading every copy back from a stick would take minutes.
    if (!existsSync(there) || statSync(there).size !== statSync(join(source, name)).size)
      copyWhole(join(source, name), there);
    return { name, sha256 };
  });
}

/** Brings the certificates of a backup into a data folder, never over one that is there; gives the names of those not found. */
export function bringCertificates(certificates: Certificates, from: string, into: string): readonly string[] {
  return certificates.flatMap(({ name, sha256 }) => {
    // The name comes out of a file that somebody hands over: it stays inside the folder.
    const isPlain = /^[^/\\]+\.pdf$/u.test(name) && !name.startsWith('.');
    const source = join(from, name);
    if (!isPlain || !existsSync(source) || hashOf(source) !== sha256) return [name];
    if (!existsSync(into)) mkdirSync(into, { mode: 0o700 });
    if (!existsSync(join(into, name))) copyWhole(source, join(into, name));
    return [];
  });
}

const namesIn = (folder: string): readonly string[] =>
  existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.pdf')) : [];

const hashOf = (file: string): string => createHash('sha256').update(readFileSync(file)).digest('hex');

function copyWhole(from: string, to: string): void {
  const part = `${to}.part`;
  try {
    copyFileSync(from, part);
    renameSync(part, to);
  } catch (error) {
    rmSync(part, { force: true });
    throw error;
  }
}
