import { Instrumenter } from '@stryker-mutator/instrumenter';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A change that can be made to one place of the code; lines count from one. */
export interface Change {
  readonly path: string;
  readonly line: number;
  readonly replacement: string;
  /** What the changer calls the place; lines count from nought there. */
  readonly place: Place;
}

interface Place {
  readonly start: { readonly line: number; readonly column: number };
  readonly end: { readonly line: number; readonly column: number };
}

/** A file in which changes lie asleep, each waiting for its number to be called. */
export interface Prepared {
  readonly path: string;
  readonly text: string;
  readonly changes: readonly (Change & { readonly id: string })[];
}

const silent = (): void => undefined;
const no = (): boolean => false;
const quiet = {
  isTraceEnabled: no,
  isDebugEnabled: no,
  isInfoEnabled: no,
  isWarnEnabled: no,
  isErrorEnabled: no,
  isFatalEnabled: no,
  trace: silent,
  debug: silent,
  info: silent,
  warn: silent,
  error: silent,
  fatal: silent,
};

/** Wording, empty lists and empty objects are left alone: the tests are asked about signs, bounds and conditions. */
const options = {
  plugins: null,
  excludedMutations: ['StringLiteral', 'ObjectLiteral', 'ArrayDeclaration', 'Regex'],
  ignorers: [],
};

/** Every change that can be made to a file. */
export async function changesOf(root: string, path: string): Promise<readonly Change[]> {
  return (await prepared(root, path)).changes;
}

/**
 * Puts changes to sleep in a file: all that can be made, or those drawn.
 * @param drawn changes of this file, as `changesOf` gave them
 */
export async function prepared(root: string, path: string, drawn?: readonly Change[]): Promise<Prepared> {
  const content = readFileSync(join(root, path), 'utf8');
  const mutate = drawn === undefined ? true : drawn.map(({ place }) => place);
  const { files, mutants } = await new Instrumenter(quiet).instrument([{ name: path, content, mutate }], options);
  const changes = mutants
    // Those of the kinds left alone are named all the same, and are nowhere in the text.
    .filter(({ status }) => status !== 'Ignored')
    .map(({ id, replacement, location }) => ({
      id: `${path}:${id}`,
      path,
      line: location.start.line + 1,
      replacement,
      place: location,
    }));
  // The changer counts from nought in every file; with the file's name before it a number stays one of a kind.
  const text = (files[0]?.content ?? '').replaceAll(
    /\b(stryMutAct_9fa48|stryCov_9fa48)\(("\d+"(?:, "\d+")*)\)/gu,
    (_, name: string, ids: string) => `${name}(${ids.replaceAll(/"(\d+)"/gu, `"${path}:$1"`)})`,
  );
  return { path, text, changes: drawn === undefined ? changes : changes.filter((one) => drawn.some(isSame(one))) };
}

const isSame =
  (one: Change) =>
  (other: Change): boolean =>
    one.replacement === other.replacement && JSON.stringify(one.place) === JSON.stringify(other.place);

/** So many of all changes by chance, each with the same chance; the same ones for the same seed. */
export function draw(changes: readonly Change[], count: number, seed: number): readonly Change[] {
  const chance = generator(seed);
  return changes
    .map((change) => ({ change, lot: chance() }))
    .toSorted((a, b) => a.lot - b.lot)
    .slice(0, count)
    .map(({ change }) => change);
}

/** A small generator of chance (xorshift32, Marsaglia 2003): the draw must be the same on every machine. */
function generator(seed: number): () => number {
  let state = (seed * 2_654_435_761) >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 2 ** 32;
  };
}
