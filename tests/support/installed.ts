import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';

const root = join(import.meta.dirname, '..', '..');
/** "nobody" on Debian: a user with no rights, no group and no home. */
const nobody = 65_534;
export const asRoot = process.getuid?.() === 0;
export const canPack = existsSync('/usr/bin/dpkg-deb');

/** A folder that the user of the installed program may write in. */
export function ownFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-installed-'));
  if (asRoot) chownSync(folder, nobody, nobody);
  return folder;
}

/** Makes the Debian package into a folder and gives its path. */
export async function madePackage(): Promise<string> {
  const out = mkdtempSync(join(tmpdir(), 'axlewright-package-'));
  const words = ['src/main/hosts/package/package.ts', 'deb', '--quick', '--out', out];
  const { code, err } = await ended(spawn(process.execPath, words, { cwd: root }));
  if (code !== 0) throw new Error(err);
  return join(out, readdirSync(out).find((name) => name.endsWith('.deb')) ?? 'no package');
}

/** A clean root that a package is installed into: by dpkg as root, else unpacked. */
export function installInto(deb: string): string {
  const clean = mkdtempSync(join(tmpdir(), 'axlewright-root-'));
  chmodSync(clean, 0o755);
  if (asRoot) {
    for (const folder of ['info', 'updates', 'triggers'])
      mkdirSync(join(clean, 'var/lib/dpkg', folder), { recursive: true });
    for (const file of ['status', 'available']) writeFileSync(join(clean, 'var/lib/dpkg', file), '');
    dpkg(clean, '--install', deb);
  } else if (spawnSync('dpkg-deb', ['-x', deb, clean]).status !== 0) throw new Error(`${deb} does not unpack`);
  return clean;
}

export const removeFrom = (clean: string): void => dpkg(clean, '--purge', 'axlewright');

/** The clean root has none of the libraries a package depends on: those of this machine are used. */
function dpkg(clean: string, deed: string, what: string): void {
  const { status, stderr } = spawnSync('dpkg', [`--root=${clean}`, '--force-depends', deed, what], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stderr);
}

/** Starts the installed program as a user without rights and with nothing at all in its environment. */
export const startInstalled = (clean: string, words: readonly string[]): ChildProcess =>
  spawn(join(clean, 'usr/bin/axlewright'), [...words], {
    cwd: '/',
    env: {},
    stdio: ['ignore', 'pipe', 'pipe'],
    ...(asRoot ? { uid: nobody, gid: nobody } : {}),
  });

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** What a program said and how it ended. */
export async function ended(child: ChildProcess): Promise<Ended> {
  const said = { out: '', err: '' };
  child.stdout?.on('data', (data: Buffer) => (said.out += data.toString('utf8')));
  child.stderr?.on('data', (data: Buffer) => (said.err += data.toString('utf8')));
  const [code] = (await once(child, 'close')) as [number | null];
  return { code, ...said };
}

/** The link that a program prints as its first answer, in JSON. */
export async function linkOf(child: ChildProcess): Promise<string> {
  if (child.stdout === null) throw new Error('nothing to be heard');
  let said = '';
  for await (const data of child.stdout.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
    said += data.toString('utf8');
    const link = /"link":"([^"]+)"/u.exec(said)?.[1];
    if (link !== undefined) return link;
  }
  throw new Error(`ended without a link: ${said}`);
}

/** Lays the records of version 0.1.0, as its demo left them, into a folder. */
export function layEarlierRecords(folder: string): void {
  const kept = join(import.meta.dirname, 'records', 'of-0.1.0', 'axlewright.db.gz');
  const file = join(folder, 'axlewright.db');
  writeFileSync(file, gunzipSync(readFileSync(kept)));
  if (asRoot) chownSync(file, nobody, nobody);
}
