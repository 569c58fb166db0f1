import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '..', '..');

interface Source {
  readonly path: string;
  readonly text: string;
  readonly imports: readonly string[];
}

function sources(folder: string): readonly Source[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(?:ts|tsx|mjs)$/u.test(entry.name))
    .map((entry) => {
      const file = join(entry.parentPath, entry.name);
      const text = readFileSync(file, 'utf8');
      const found = text.matchAll(/(?:\bfrom|\bimport)\s*\(?\s*'([^'\n]+)'(?=\)?;|\))/gu);
      return {
        path: relative(root, file).split(sep).join('/'),
        text,
        imports: [...found].map((match) => match[1] ?? ''),
      };
    });
}

/** An import as a path from the root, or the package's name. */
const target = (source: Source, name: string): string =>
  name.startsWith('.')
    ? relative(root, resolve(root, source.path, '..', name))
        .split(sep)
        .join('/')
    : name;

const imports = (files: readonly Source[]): readonly (readonly [string, string])[] =>
  files.flatMap((source) => source.imports.map((name) => [source.path, target(source, name)] as const));

const withoutComments = (text: string): string => text.replaceAll(/\/\*[\s\S]*?\*\/|\/\/[^\n]*/gu, '');

const purePackages = new Set(['zod', 'simple-statistics', 'canonicalize']);

describe('the house', () => {
  it('keeps src/shared pure: only itself and a few pure libraries', () => {
    const wrong = imports(sources('src/shared')).filter(
      ([, to]) => !to.startsWith('src/shared/') && !purePackages.has(to),
    );
    expect(wrong).toEqual([]);
  });

  it('keeps clock and chance out of src/shared', () => {
    const wrong = sources('src/shared').filter(({ text }) =>
      /Date\.now|new Date\(\)|Math\.random|performance\.now|setTimeout|setInterval|console\.|process\./u.test(
        withoutComments(text),
      ),
    );
    expect(wrong.map(({ path }) => path)).toEqual([]);
  });

  it('lets only the Electron host know Electron', () => {
    const wrong = imports(sources('src'))
      .filter(([, to]) => to === 'electron')
      .filter(([from]) => !from.startsWith('src/main/hosts/electron/'));
    expect(wrong).toEqual([]);
  });

  it('keeps Node and the rooms of the bench out of the screens', () => {
    const wrong = imports(sources('src/renderer')).filter(
      ([, to]) => to.startsWith('node:') || to.startsWith('src/main/'),
    );
    expect(wrong).toEqual([]);
  });

  it('keeps the screens out of the bench', () => {
    expect(imports(sources('src/main')).filter(([, to]) => to.startsWith('src/renderer/'))).toEqual([]);
  });

  it('keeps hardware-sim and src apart, so that an error cannot cancel itself', () => {
    expect(imports(sources('hardware-sim')).filter(([, to]) => to.startsWith('src/'))).toEqual([]);
    const plugs = imports(sources('src')).filter(([, to]) => to.startsWith('hardware-sim/'));
    expect([...new Set(plugs.map(([from]) => from))].filter((from) => !mayPlugIn.has(from))).toEqual([]);
  });

  it('lets every room of src/shared know only the rooms below it, types included', () => {
    const wrong = imports(sources('src/shared'))
      .map(([from, to]) => [from, to, roomOf(from), roomOf(to)] as const)
      .filter(([, , from, to]) => from !== to && !(below.get(from) ?? []).includes(to))
      .filter(([, to]) => to.startsWith('src/shared/'))
      .map(([from, to]) => `${from} -> ${to}`);
    expect(wrong).toEqual([]);
  });

  it('gives every file of src/shared a room', () => {
    const rooms = new Set(sources('src/shared').map(({ path }) => roomOf(path)));
    expect([...rooms].toSorted()).toEqual([...below.keys()].toSorted());
  });

  it('goes round in no circle, types included', () => {
    expect(circlesOf([...sources('src'), ...sources('hardware-sim')])).toEqual([]);
  });

  it('lets production know no test', () => {
    expect(
      imports([...sources('src'), ...sources('hardware-sim')]).filter(([, to]) => to.startsWith('tests/')),
    ).toEqual([]);
  });
});

/** The places that plug the simulated gauges into the bench: the open bench and the command line. */
const mayPlugIn = new Set(['src/main/hosts/simulatedBench.ts', 'src/main/cli/verbs/simulate.ts']);

const roomOf = (path: string): string => path.split('/')[2] ?? '';

/** The storeys of src/shared from the ground up: what each room may know. */
const below = new Map<string, readonly string[]>([
  ['basics', []],
  ['gauges', ['basics']],
  ['measuring', ['basics', 'gauges']],
  ['axle', ['basics', 'gauges', 'measuring']],
  ['job', ['basics', 'gauges', 'measuring', 'axle']],
  // Beside each other on top: what is shown, and what crosses between the bench and the screens.
  ['presentation', ['basics', 'gauges', 'measuring', 'axle', 'job']],
  ['contract', ['basics', 'gauges', 'measuring', 'axle', 'job']],
]);

/** Groups of files that know each other round about (Tarjan's strongly connected components). */
function circlesOf(files: readonly Source[]): readonly (readonly string[])[] {
  const edges = new Map(files.map((file) => [file.path, file.imports.map((name) => target(file, name))] as const));
  const order = new Map<string, number>();
  const low = new Map<string, number>();
  const path: string[] = [];
  const circles: (readonly string[])[] = [];
  const lowOf = (file: string): number => low.get(file) ?? 0;
  const visit = (file: string): void => {
    order.set(file, order.size);
    low.set(file, order.get(file) ?? 0);
    path.push(file);
    for (const next of edges.get(file) ?? []) {
      if (!edges.has(next)) continue;
      if (!order.has(next)) visit(next);
      else if (!path.includes(next)) continue;
      low.set(file, Math.min(lowOf(file), lowOf(next)));
    }
    if (lowOf(file) !== order.get(file)) return;
    const circle = path.splice(path.indexOf(file));
    if (circle.length > 1) circles.push(circle.toSorted());
  };
  for (const file of edges.keys()) if (!order.has(file)) visit(file);
  return circles;
}
