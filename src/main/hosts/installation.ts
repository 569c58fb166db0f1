import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Where Axlewright lies, and which one it is. */
interface Installation {
  /** The folder with the package file, the built screens and the documents. */
  readonly root: string;
  readonly version: string;
  /** Bundled, as it is installed; else run from its sources. */
  readonly bundled: boolean;
}

/**
 * The folder this program belongs to: the nearest one above it with our own package file. Sources, the bundled program of a
 * package and the built parts of Electron lie at different depths in it.
 */
function lookUp(from: string): Installation {
  for (let folder = from; ; folder = dirname(folder)) {
    const own = ownVersion(join(folder, 'package.json'));
    if (own !== undefined) return { root: folder, version: own, bundled: !import.meta.filename.endsWith('.ts') };
    if (dirname(folder) === folder) return { root: from, version: 'unknown', bundled: true };
  }
}

function ownVersion(file: string): string | undefined {
  if (!existsSync(file)) return undefined;
  try {
    const { name, version } = JSON.parse(readFileSync(file, 'utf8')) as { name?: string; version?: string };
    return name === 'axlewright' ? version : undefined;
  } catch {
    // A package file that cannot be read is not ours.
    return undefined;
  }
}

export const installation: Installation = lookUp(import.meta.dirname);
