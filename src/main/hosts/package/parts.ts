import { cpSync, mkdirSync, readdirSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';

/** The systems there is a package for, by the names that native parts give them. */
export type System = 'linux-x64' | 'win32-x64';

/** A part that cannot be bundled, because it is machine code, or is read as a file: which of its files are needed. */
interface Beside {
  /** Its folder under node_modules. */
  readonly folder: string;
  readonly files: readonly RegExp[];
}

/** Whatever a part is taken for, its name and its licence go with it. */
const always = /^(?:package\.json|licen[cs]e[^/]*)$/iu;
const script = /\.[cm]?js$/u;

const serial = '@serialport/bindings-cpp';

const everywhere = (system: System): readonly Beside[] => [
  { folder: 'better-sqlite3', files: [/^lib\/.*\.js$/u, new RegExp(`^prebuilds/${system}\\.node$`, 'u')] },
  { folder: serial, files: [/^dist\/.*\.js$/u, new RegExp(`^prebuilds/${system}/[^/]*(?<!musl)\\.node$`, 'u')] },
  { folder: `${serial}/node_modules/@serialport/parser-delimiter`, files: [script] },
  { folder: `${serial}/node_modules/@serialport/parser-readline`, files: [script] },
  { folder: `${serial}/node_modules/debug`, files: [script] },
  { folder: `${serial}/node_modules/ms`, files: [script] },
  { folder: '@serialport/bindings-interface', files: [script] },
  { folder: 'node-gyp-build', files: [/^(?:index|node-gyp-build)\.js$/u] },
  { folder: '@hyzyla/pdfium', files: [/^dist\/index\.esm\.js$/u, /^dist\/pdfium\.wasm$/u] },
  { folder: '@expo-google-fonts/inter', files: [/^(?:400Regular|500Medium|600SemiBold|700Bold)\/[^/]*\.ttf$/u] },
];

/** Only simulated gauges on pseudo-terminals use this, which Windows does not have. */
const pseudoTerminals: readonly Beside[] = [
  { folder: 'koffi', files: [/^in(?:dex|direct)\.c?js$/u, /^src\/koffi\/.*\.c?js$/u] },
  { folder: '@koromix/koffi-linux-x64', files: [/^index\.js$/u, /^linux_x64\/koffi\.node$/u] },
];

export const partsBeside = (system: System): readonly Beside[] =>
  system === 'linux-x64' ? [...everywhere(system), ...pseudoTerminals] : everywhere(system);

/** What the bundler leaves outside: these are found beside the program at run time. */
export const leftOutside: readonly string[] = ['better-sqlite3', serial, 'koffi', '@hyzyla/pdfium'];

/**
 * Copies the parts a program of this system finds beside it.
 * @throws Error where a part holds none of the files asked of it: its package has changed its shape.
 */
export function layParts(root: string, to: string, system: System): void {
  for (const { folder, files } of partsBeside(system)) {
    const from = join(root, 'node_modules', folder);
    const wanted = filesUnder(from).filter((path) => always.test(path) || files.some((one) => one.test(path)));
    for (const one of files)
      if (!wanted.some((path) => one.test(path))) throw new Error(`${folder} holds no file like ${one.source}.`);
    for (const path of wanted) copyFile(join(from, path), join(to, 'node_modules', folder, path));
  }
}

/** Files of a folder as paths with slashes, packages nested in it left out, in a fixed order. */
export function filesUnder(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((path) => !path.startsWith('node_modules/'))
    .toSorted();
}

export function copyFile(from: string, to: string): void {
  mkdirSync(dirname(to), { recursive: true });
  cpSync(from, to, { dereference: true });
}
