import type { SourceFile } from '../house/sources.ts';

/** A line of code to be changed, as the mutation tester names it. */
export interface LineDrawn {
  readonly path: string;
  readonly line: number;
}

/**
 * A stratified random draw: every file gives lines in proportion to its length, the same ones for the same seed. Comments,
 * imports, types and lone brackets hold nothing to change.
 */
export function drawLines(files: readonly SourceFile[], count: number, seed: number): readonly LineDrawn[] {
  const all = files.flatMap(codeLines);
  const chance = generator(seed);
  const drawn = new Set<LineDrawn>();
  const stride = all.length / Math.min(count, all.length);
  for (let from = 0; from < all.length; from += stride) {
    const line = all[Math.min(all.length - 1, Math.floor(from + chance() * stride))];
    if (line !== undefined) drawn.add(line);
  }
  return [...drawn];
}

function codeLines({ path, text }: SourceFile): readonly LineDrawn[] {
  let inComment = false;
  return text.split('\n').flatMap((raw, index) => {
    const line = raw.trim();
    if (line.startsWith('/*')) inComment = true;
    const isCode =
      !inComment &&
      /[=<>?!+*/&|-]|return/u.test(line) &&
      !/^(?:\/\/|import |export type|export interface|readonly )/u.test(line);
    if (line.endsWith('*/')) inComment = false;
    return isCode ? [{ path, line: index + 1 }] : [];
  });
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
