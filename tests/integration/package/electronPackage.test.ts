import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { listPackage } from '@electron/asar';
import { FuseState, FuseV1Options, getCurrentFuseWire } from '@electron/fuses';
import { beforeAll, describe, expect, it } from 'vitest';
import { layElectron, packElectron } from '../../../src/main/hosts/package/electron.ts';
import { ownFolder } from '../../support/installed.ts';

const root = resolve(import.meta.dirname, '..', '..', '..');

/**
 * A folder like the one in which Electron comes: a file with the mark by which fuses are found (the sentinel, version 1, nine
 * fuses, all on; as @electron/fuses reads it), and the languages. Nothing in it runs.
 */
function standIn(): string {
  const folder = join(ownFolder(), 'electron');
  mkdirSync(join(folder, 'locales'), { recursive: true });
  const fuses = [Buffer.from('dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX'), Buffer.from([1, 9]), Buffer.from('1'.repeat(9))];
  writeFileSync(join(folder, 'electron'), Buffer.concat(fuses), { mode: 0o755 });
  for (const language of ['en-GB', 'en-US', 'fi']) writeFileSync(join(folder, 'locales', `${language}.pak`), '');
  return folder;
}

describe.skipIf(process.platform !== 'linux' || process.arch !== 'x64')('the package for Electron', () => {
  const out = ownFolder();
  const packed = join(out, 'electron', 'linux-unpacked');
  const resources = join(packed, 'resources');
  let listed: readonly string[];

  beforeAll(async () => {
    await layElectron(root, join(out, 'app'), 'linux-x64');
    expect(packElectron({ root, app: join(out, 'app'), electronDist: standIn(), dirOnly: true })).toBe(0);
    listed = listPackage(join(resources, 'app.asar'), { isPack: false });
  }, 120_000);

  it('has its fuses set: no other program, no flag and no unpacked file gets in', async () => {
    const wire = await getCurrentFuseWire(join(packed, 'axlewright-bench'));
    const off = [
      FuseV1Options.RunAsNode,
      FuseV1Options.EnableNodeOptionsEnvironmentVariable,
      FuseV1Options.EnableNodeCliInspectArguments,
      FuseV1Options.GrantFileProtocolExtraPrivileges,
    ];
    for (const fuse of off) expect(wire[fuse], FuseV1Options[fuse]).toBe(FuseState.DISABLE);
    for (const fuse of [FuseV1Options.EnableEmbeddedAsarIntegrityValidation, FuseV1Options.OnlyLoadAppFromAsar])
      expect(wire[fuse], FuseV1Options[fuse]).toBe(FuseState.ENABLE);
  });

  it('holds the program, its threads, the preload, the screens, documents and licences in one archive', () => {
    const { main } = JSON.parse(readFileSync(join(out, 'app', 'package.json'), 'utf8')) as { readonly main: string };
    const programs = ['benchProcess', 'rowsWorker', 'backupWorker'].map((name) => `/out/main/${name}.js`);
    const others = ['/out/preload/preload.cjs', '/out/renderer/index.html', '/docs/cautions.md', '/licences/parts.txt'];
    expect(listed).toEqual(expect.arrayContaining([`/${main}`, ...programs, ...others, '/package.json', '/LICENSE']));
    expect(listed.filter((path) => /\.tsx?$|\/src\/(?:main|renderer)\//u.test(path))).toEqual([]);
    expect(statSync(join(resources, 'app.asar')).size).toBeLessThan(20e6);
  });

  it('has its native parts beside the archive, of this system alone, and they load', () => {
    const beside = join(resources, 'app.asar.unpacked');
    const natives = readdirSync(beside, { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.node'));
    expect(natives).toHaveLength(3);
    for (const path of natives) {
      expect(path).toMatch(/linux[-_]x64/u);
      const { status, stderr } = spawnSync(process.execPath, ['-e', `require(${JSON.stringify(join(beside, path))})`]);
      expect(status, String(stderr)).toBe(0);
    }
  });

  it('is made for the Electron that is tested against', () => {
    const read = (path: string) => JSON.parse(readFileSync(join(root, path), 'utf8')) as Record<string, unknown>;
    const { electronVersion } = read('src/main/hosts/package/system/electron.json');
    expect(read('package.json')['devDependencies']).toMatchObject({ electron: electronVersion });
  });
});
