import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

const packageSchema = z.looseObject({
  name: z.string(),
  version: z.string(),
  license: z.string().optional(),
  dependencies: z.record(z.string(), z.string()).optional(),
});

/** What the screens are built from; what these need is looked up. */
const inScreens: readonly string[] = ['react', 'react-dom', 'react-aria-components', 'zustand', 'zod', 'libheif-js'];

/**
 * Writes the licence of every part whose code or files are in the package, one file each: name, version, the licence's short
 * name, then its text as the part carries it.
 * @returns a line for each part: name, version, licence.
 */
export function layLicences(root: string, to: string, parts: readonly string[]): readonly string[] {
  mkdirSync(to, { recursive: true });
  const all = [...new Set([...parts, ...withNeeds(root, inScreens)])].toSorted();
  return all.map((folder) => {
    const from = join(root, 'node_modules', folder);
    const { name, version, license } = readPackage(from);
    const head = `${name} ${version} (${license ?? 'see below'})`;
    writeFileSync(join(to, `${folder.replaceAll('/', '-')}.txt`), `${head}\n\n${textOf(from)}`);
    return head;
  });
}

/** The packages of these names and all they need, as folders under node_modules. */
function withNeeds(root: string, names: readonly string[]): readonly string[] {
  const found = new Set<string>();
  const take = (name: string): void => {
    // Types alone have no code in any program.
    if (found.has(name) || name.startsWith('@types/') || !existsSync(join(root, 'node_modules', name))) return;
    found.add(name);
    for (const need of Object.keys(readPackage(join(root, 'node_modules', name)).dependencies ?? {})) take(need);
  };
  for (const name of names) take(name);
  return [...found];
}

const readPackage = (folder: string): z.infer<typeof packageSchema> =>
  packageSchema.parse(JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')));

function textOf(folder: string): string {
  const file = readdirSync(folder).find((name) => /^(?:licen[cs]e|copying)/iu.test(name));
  return file === undefined
    ? 'The package carries no text of its licence.\n'
    : readFileSync(join(folder, file), 'utf8');
}
