import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '..', '..');

const documents = [
  'README.md',
  'DEVELOPERS.md',
  ...readdirSync(join(root, 'docs'), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.md'))
    .map((path) => join('docs', path)),
];

const textOf = (path: string): string => readFileSync(join(root, path), 'utf8');

/** What a document links to and shows, code left out. */
function targetsIn(text: string): readonly string[] {
  const words = text.replaceAll(/```[\s\S]*?```|`[^`\n]*`/gu, '');
  return [...words.matchAll(/\]\(([^()\s]+)\)/gu)].map(([, target]) => target ?? '');
}

/** The anchor a heading gets where documents are shown: lower case, no signs, hyphens for spaces. */
const anchorsIn = (text: string): ReadonlySet<string> =>
  new Set(
    [...text.matchAll(/^#+ (.+)$/gmu)].map(([, heading = '']) =>
      heading
        .toLowerCase()
        .replaceAll(/[^\p{L}\p{N}\s_-]/gu, '')
        .trim()
        .replaceAll(/\s/gu, '-'),
    ),
  );

describe('the documents', () => {
  it.each(documents)('%s leads and shows only what is there', (path) => {
    const wrong = targetsIn(textOf(path)).filter((target) => {
      if (/^https?:/u.test(target)) return false;
      const [file = '', anchor] = target.split('#');
      const at = file === '' ? join(root, path) : resolve(root, dirname(path), file);
      if (!existsSync(at)) return true;
      return anchor !== undefined && !anchorsIn(readFileSync(at, 'utf8')).has(anchor);
    });
    expect(wrong).toEqual([]);
  });

  it('are all found from the index, and every picture is shown somewhere', () => {
    const led = new Set(
      documents.flatMap((path) =>
        targetsIn(textOf(path)).map((target) => resolve(root, dirname(path), target.split('#')[0] ?? '')),
      ),
    );
    const unfound = documents.filter((path) => path.startsWith('docs') && path !== join('docs', 'README.md'));
    expect(unfound.filter((path) => !led.has(join(root, path)))).toEqual([]);
    const pictures = readdirSync(join(root, 'docs', 'pictures')).map((name) => join(root, 'docs', 'pictures', name));
    expect(pictures.filter((picture) => !led.has(picture))).toEqual([]);
  });

  it('number every decision once, and the index has them all in order', () => {
    const numbers = readdirSync(join(root, 'docs', 'decisions')).map((name) => Number(name.slice(0, 4)));
    expect(numbers.toSorted((a, b) => a - b)).toEqual(numbers.map((_, n) => n + 1));
    const index = [...textOf('docs/README.md').matchAll(/^\| \[(\d+)\]\(decisions\/(\d{4})-/gmu)];
    expect(index.map(([, said, file]) => [Number(said), Number(file)])).toEqual(numbers.map((_, n) => [n + 1, n + 1]));
  });

  it('hold the commands that there are', () => {
    const { scripts } = JSON.parse(textOf('package.json')) as { readonly scripts: Readonly<Record<string, string>> };
    const known = new Set([...Object.keys(scripts), 'ci', 'install']);
    for (const path of documents)
      for (const [, command = ''] of textOf(path).matchAll(/\bnpm run (?:-s )?([a-z]+)/gu))
        expect(known.has(command), `${path}: npm run ${command}`).toBe(true);
  });

  it('name benches that there are', () => {
    const benches = readdirSync(join(root, 'tests', 'performance')).filter((name) => name.endsWith('.bench.ts'));
    for (const path of documents)
      for (const [, name = ''] of textOf(path).matchAll(/\bnpm run bench ([a-z]+)/gu))
        expect(
          benches.some((bench) => bench.includes(name)),
          `${path}: npm run bench ${name}`,
        ).toBe(true);
  });
});
