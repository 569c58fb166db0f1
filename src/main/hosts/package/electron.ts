import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { icon } from './icon.ts';
import { layLicences } from './licences.ts';
import { copyFile, filesUnder, layParts, partsBeside, type System } from './parts.ts';
import { ownPackage } from './payload.ts';
import { layElectronProgram } from './program.ts';

/** What electron-builder is told, but for where things lie: fuses, what is packed and what lies beside, targets of each system. */
const electronSettings = join(import.meta.dirname, 'system', 'electron.json');

/**
 * Lays out the folder that electron-builder packs: the program of Electron bundled, its preload, the screens, the parts of that
 * system, documents, licences and icons. Preload and screens are those built already.
 */
export async function layElectron(root: string, to: string, system: System): Promise<void> {
  rmSync(to, { recursive: true, force: true });
  const inside = await layElectronProgram(root, join(to, 'out', 'main'));
  layParts(root, to, system);
  for (const part of ['out/preload', 'out/renderer', 'docs'])
    for (const path of filesUnder(join(root, part))) copyFile(join(root, part, path), join(to, part, path));
  copyFile(join(root, 'LICENSE'), join(to, 'LICENSE'));
  const licences = layLicences(root, join(to, 'licences'), [
    ...inside,
    ...partsBeside(system).map(({ folder }) => folder),
  ]);
  writeFileSync(join(to, 'licences', 'parts.txt'), `${licences.join('\n')}\n`);
  mkdirSync(join(to, 'icons'));
  copyFile(join(import.meta.dirname, 'system', 'axlewright.png'), join(to, 'icons', 'icon.png'));
  writeFileSync(join(to, 'icons', 'icon.ico'), icon());
  const { name, version, license, description } = ownPackage(root);
  const own = { name, version, license, description, author: 'Axlewright', type: 'module', main: 'out/main/index.js' };
  writeFileSync(join(to, 'package.json'), `${JSON.stringify(own, undefined, 2)}\n`);
}

interface Packing {
  readonly root: string;
  /** As `layElectron` laid it; what comes of it lies in `electron` beside it. */
  readonly app: string;
  /** A folder with Electron's own files; without it electron-builder fetches them. */
  readonly electronDist?: string | undefined;
  /** The folder as it would be installed, and no installer. */
  readonly dirOnly: boolean;
}

/** Has electron-builder pack it, publishing nothing. @returns its exit code */
export function packElectron({ root, app, electronDist, dirOnly }: Packing): number {
  const words = [
    join(root, 'node_modules', 'electron-builder', 'cli.js'),
    '--projectDir',
    app,
    '--config',
    electronSettings,
    '--publish',
    'never',
    ...(dirOnly ? ['--dir'] : []),
    ...(electronDist === undefined ? [] : [`-c.electronDist=${electronDist}`]),
  ];
  return (
    spawnSync(process.execPath, words, { cwd: app, stdio: ['ignore', process.stderr, process.stderr] }).status ?? 1
  );
}
