import type { Letters } from './letters.ts';
import type { Paper, Strip, Struct } from './paper.ts';

/** How lines are set: their letters and the strip they stand in. */
interface Setting {
  readonly letters: Letters;
  readonly strip: Strip;
}

/** Lines of one structure element, over a page break where they must. */
export function flow(paper: Paper, lines: readonly string[], { letters, strip }: Setting, struct: Struct): void {
  let rest = lines;
  while (rest.length > 0) {
    paper.need(letters.line);
    const fitting = Math.max(1, Math.floor(paper.room / letters.line + 1e-6));
    const now = rest.slice(0, fitting);
    const top = paper.y;
    struct.add(() => now.forEach((words, index) => paper.line(words, strip.x, top + index * letters.line, letters)));
    paper.y = top + now.length * letters.line;
    rest = rest.slice(fitting);
  }
}

/** A paragraph as a structure element of its own, `P` in the document unless said otherwise. */
export function paragraph(
  paper: Paper,
  words: string,
  setting: Setting,
  { type = 'P', parent = paper.root }: { readonly type?: string; readonly parent?: Struct } = {},
): void {
  const struct = paper.tag(parent, type);
  const lines = paper.wrap(words, setting.letters, setting.strip.width);
  // A short paragraph stays together; a long one may go over.
  if (lines.length <= 4) paper.need(lines.length * setting.letters.line);
  flow(paper, lines, setting, struct);
  struct.end();
}
