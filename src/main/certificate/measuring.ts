import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { codeAlone } from './codeAlone.ts';

/** Put in the place of this name when the program is built into one file: its sources do not lie beside it then. */
declare const BUILT_MEASURING_HASH: string | undefined;

let known: string | undefined;

/**
 * By this two programs that measure alike know each other: the SHA-256 of the code by which a measurement is worked out from
 * its readings, without comments and with blanks as one. Equal, and the figures of both must be equal; another one is another program, which may have learned since.
 */
export function measuringHash(): string {
  known ??=
    typeof BUILT_MEASURING_HASH === 'string'
      ? BUILT_MEASURING_HASH
      : hashOfSources(join(import.meta.dirname, '..', '..', '..'));
  return known;
}

/** Where measuring begins; everything that decides on a figure is imported from here, directly or not. */
const entry = join('src', 'main', 'journal', 'measured.ts');

/** @param root the folder of the program, with its package.json. */
export function hashOfSources(root: string): string {
  const { files, packages } = sourcesOf(root);
  const { dependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    readonly dependencies: Readonly<Record<string, string>>;
  };
  const hash = createHash('sha256');
  for (const name of packages) hash.update(`${name} ${dependencies[name] ?? ''}\n`);
  for (const [path, text] of files) hash.update(`${path}\n${codeAlone(text)}\n`);
  return hash.digest('hex');
}

/** The files that measuring rests on, by their paths from the root in their order, and the packages they use. */
export function sourcesOf(root: string): {
  readonly files: ReadonlyMap<string, string>;
  readonly packages: readonly string[];
} {
  const found = new Map<string, string>();
  const packages = new Set<string>();
  const open = [resolve(root, entry)];
  for (let file = open.pop(); file !== undefined; file = open.pop()) {
    const path = relative(root, file).split(sep).join('/');
    if (found.has(path) || !existsSync(file)) continue;
    // The same sources checked out on another system have other line ends.
    const text = readFileSync(file, 'utf8').replaceAll('\r\n', '\n');
    found.set(path, text);
    for (const name of importsOf(text)) {
      if (name.startsWith('.')) open.push(resolve(dirname(file), name));
      else packages.add(name);
    }
  }
  const files = new Map([...found].toSorted(([one], [other]) => (one < other ? -1 : 1)));
  return { files, packages: [...packages].toSorted() };
}

/** What a file imports to run; types alone decide on no figure. */
const importsOf = (text: string): readonly string[] =>
  [...text.matchAll(/^(?:import|export)(?! type)[^;]*? from '([^'\n]+)';/gmu)].map(([, name]) => name ?? '');
