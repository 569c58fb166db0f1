import type { House, SourceFile } from './sources.ts';

/** Exported names that no other source file takes: needless, or there for tests alone. */
export interface Unused {
  readonly onlyOwnFile: readonly string[];
  readonly onlyTests: readonly string[];
}

export function unusedExports(house: House): Unused {
  const source = house.code.filter(({ path }) => !path.startsWith('tests/'));
  const takenBySource = takenIn(source);
  const takenByTests = takenIn(house.code.filter(({ path }) => path.startsWith('tests/')));
  const onlyOwnFile: string[] = [];
  const onlyTests: string[] = [];
  for (const file of source) {
    for (const name of exportsOf(file)) {
      if (isTaken(takenBySource, file.path, name)) continue;
      (isTaken(takenByTests, file.path, name) ? onlyTests : onlyOwnFile).push(`${file.path} ${name}`);
    }
  }
  return { onlyOwnFile, onlyTests };
}

const exportsOf = ({ text }: SourceFile): readonly string[] =>
  [...text.matchAll(/^export (?:async )?(?:const|let|function\*?|class|interface|type) ([A-Za-z_$][\w$]*)/gmu)].flatMap(
    ([, name]) => (name === undefined ? [] : [name]),
  );

function takenIn(files: readonly SourceFile[]): ReadonlySet<string> {
  return new Set(
    files.flatMap(({ imports }) => imports.flatMap(({ from, names }) => names.map((n) => `${from} ${n}`))),
  );
}

const isTaken = (taken: ReadonlySet<string>, path: string, name: string): boolean =>
  taken.has(`${path} ${name}`) || taken.has(`${path} *`);

/** Places in style sheets that state a length in px where a token should stand; the tokens' own file is left out. */
export const bareLengths = (house: House): number =>
  house.styles
    .filter(({ path }) => !path.endsWith('tokens.css'))
    .flatMap(({ text }) => [...withoutComments(text).matchAll(/(?<![\w.-])\d+(?:\.\d+)?px/gu)]).length;

const withoutComments = (text: string): string => text.replaceAll(/\/\*[\s\S]*?\*\//gu, '');

/** Custom properties that are set and read nowhere, in styles or code. */
export function unusedProperties(house: House): readonly string[] {
  const styles = house.styles.map(({ text }) => withoutComments(text)).join('\n');
  const code = house.code
    .filter(({ path }) => path.startsWith('src/'))
    .map(({ text }) => text)
    .join('\n');
  const set = new Set([...styles.matchAll(/(?<=[\s{;])(--[\w-]+)\s*:/gu)].map(([, name]) => name ?? ''));
  return [...set].filter((name) => !styles.includes(`var(${name}`) && !code.includes(name));
}

/** Wrong places in lists that would silently read as 0. */
export const silentZeros = (files: readonly SourceFile[]): number =>
  files.flatMap(({ text }) => [...text.matchAll(/\] \?\? 0\b/gu)]).length;

/** Type names that mean something else in another file of the same sources. */
export function homonyms(files: readonly SourceFile[]): readonly string[] {
  const places = new Map<string, number>();
  for (const { text } of files) {
    for (const [, name] of text.matchAll(/^(?:export )?(?:interface|type) ([A-Z]\w*)/gmu))
      places.set(name ?? '', (places.get(name ?? '') ?? 0) + 1);
  }
  return [...places].filter(([, count]) => count > 1).map(([name, count]) => `${name} × ${count}`);
}

/** Runs of six or more lines that stand letter for letter in two files; blank lines, comments and imports do not count. */
export function repeatedRuns(files: readonly SourceFile[], length = 6): number {
  const first = new Map<string, string>();
  let runs = 0;
  for (const { path, text } of files) {
    const lines = text
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line.length > 2 && !/^(?:\/?\*|\/\/|import |\} from )/u.test(line));
    let last = -length;
    for (let at = 0; at + length <= lines.length; at += 1) {
      const run = lines.slice(at, at + length).join('\n');
      const seen = first.get(run);
      if (seen === undefined) first.set(run, path);
      else if (seen !== path && at - last >= length) {
        runs += 1;
        last = at;
      }
    }
  }
  return runs;
}
