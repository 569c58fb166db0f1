import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, normalize } from 'node:path';

/** One source file of a house, with what it takes from others. Paths run from the root. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
  readonly imports: readonly Import[];
}

export interface Import {
  /** The file it comes from, or a package's name. */
  readonly from: string;
  readonly names: readonly string[];
}

/** Code and style sheets of a checkout. */
export interface House {
  readonly code: readonly SourceFile[];
  readonly styles: readonly SourceFile[];
}

/** Reads the house as it stood at a revision of this repository, or as it stands now. */
export function readHouse(root: string, revision?: string): House {
  if (revision === undefined) return housesFiles(root);
  const folder = mkdtempSync(join(tmpdir(), 'house-'));
  try {
    const archive = execFileSync('git', ['archive', revision, 'src', 'hardware-sim', 'tests'], {
      cwd: root,
      maxBuffer: 2 ** 30,
    });
    execFileSync('tar', ['-x', '-C', folder], { input: archive });
    return housesFiles(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function housesFiles(root: string): House {
  const files = ['src', 'hardware-sim', 'tests'].flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).map((name) => join(folder, name)),
  );
  const read = (path: string): SourceFile => {
    const text = readFileSync(join(root, path), 'utf8');
    return { path, text, imports: importsOf(path, text) };
  };
  return {
    code: files.filter((path) => /\.tsx?$/u.test(path)).map(read),
    styles: files.filter((path) => path.endsWith('.css')).map(read),
  };
}

/** Imports and re-exports, types included. */
function importsOf(path: string, text: string): readonly Import[] {
  const stated = [...text.matchAll(/\b(?:import|export)\b([^'";=]*?)\bfrom\s*'([^'\n]+)'/gu)];
  const lazy = [...text.matchAll(/\bimport\(\s*'([^'\n]+)'\s*\)/gu)];
  return [
    ...stated.map(([, names = '', from = '']) => ({ from: placeOf(path, from), names: namesIn(names) })),
    ...lazy.map(([, from = '']) => ({ from: placeOf(path, from), names: ['*'] })),
  ];
}

const placeOf = (path: string, from: string): string =>
  from.startsWith('.') ? normalize(join(dirname(path), from)) : from;

function namesIn(clause: string): readonly string[] {
  const inner = /\{([^}]*)\}/u.exec(clause)?.[1];
  if (inner === undefined) return clause.includes('*') ? ['*'] : ['default'];
  return inner
    .split(',')
    .map((name) =>
      name
        .trim()
        .replace(/^type /u, '')
        .replace(/ as .*$/u, ''),
    )
    .filter((name) => name !== '');
}
