import { cpSync, mkdirSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { told } from '../../cli/told.ts';
import { completion, manualPage } from './manual.ts';
import { sizeOf, type Sealing, settle, sumsOf, tool } from './sealing.ts';

const library = 'usr/lib/axlewright';
const documents = 'usr/share/doc/axlewright';

/** How hard the package is pressed. Quick is for tests: the same files, larger. */
const pressed = { well: ['-Zxz', '-z2'], quickly: ['-Zgzip', '-z1'] } as const;

/**
 * Makes the Debian package from the payload: the same folder under /usr/lib, with its menu entry, icon, manual page, shell
 * completion and the right to use serial ports at this seat. It has no scripts of its own: removing it takes away what it
 * brought and nothing else.
 */
export function sealDeb({ payload, version, epoch, out, quick }: Sealing): string {
  const tree = `${payload}.deb`;
  rmSync(tree, { recursive: true, force: true });
  cpSync(payload, join(tree, library), { recursive: true });
  mkdirSync(join(tree, 'usr/bin'), { recursive: true });
  symlinkSync('../lib/axlewright/bin/axlewright', join(tree, 'usr/bin/axlewright'));
  const put = (path: string, content: string | Buffer): void => {
    mkdirSync(dirname(join(tree, path)), { recursive: true });
    writeFileSync(join(tree, path), content);
  };
  const system = (name: string): string => readFileSync(join(import.meta.dirname, 'system', name), 'utf8');
  put('usr/share/applications/axlewright.desktop', system('axlewright.desktop'));
  put('usr/share/icons/hicolor/scalable/apps/axlewright.svg', readFileSync(join(payload, 'out/renderer/icon.svg')));
  put('usr/share/man/man1/axlewright.1.gz', gzipSync(manualPage(told, version), { level: 9 }));
  put('usr/share/bash-completion/completions/axlewright', completion(told));
  put('usr/lib/udev/rules.d/70-axlewright-serial.rules', system('70-axlewright-serial.rules'));
  put(join(documents, 'copyright'), copyright(payload, system('copyright')));
  for (const name of ['docs', 'README.md']) renameSync(join(tree, library, name), join(tree, documents, name));
  put('DEBIAN/control', control(version, tree));
  put('DEBIAN/md5sums', sumsOf(tree));
  settle(tree, epoch);
  const file = join(out, `axlewright_${version}_amd64.deb`);
  const press = pressed[quick ? 'quickly' : 'well'];
  tool('dpkg-deb', ['--root-owner-group', '--threads-max=1', ...press, '--build', tree, file], epoch);
  rmSync(tree, { recursive: true, force: true });
  return file;
}

/** Debian's form of the licence: the text indented under its name, an empty line as a dot. */
const copyright = (payload: string, head: string): string =>
  `${head}${readFileSync(join(payload, 'LICENSE'), 'utf8')
    .trim()
    .split('\n')
    .slice(4)
    .map((line) => (line === '' ? ' .\n' : ` ${line}\n`))
    .join('')}`;

/** What the program links to, read off its parts: the database asks for the newest C library of them. */
const control = (version: string, tree: string): string => `Package: axlewright
Version: ${version}
Architecture: amd64
Maintainer: The Axlewright developers <developers@axlewright.invalid>
Installed-Size: ${Math.ceil(sizeOf(tree) / 1024)}
Depends: libc6 (>= 2.34), libgcc-s1, libstdc++6 (>= 11)
Recommends: chromium | www-browser, xdg-utils
Section: science
Priority: optional
Description: bench for setting up ring-and-pinion gears in drive axles
 Reads a dial indicator and a torque gauge, measures backlash, runout and
 rotating torque with their uncertainty, reads the painted mark, says which
 shim to change, and keeps the record of the build with its certificate.
 .
 The screens open in the browser of this computer; nothing leaves it.
`;
