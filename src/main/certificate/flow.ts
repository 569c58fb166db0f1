import type { Letters } from './letters.ts';
import type { Paper, Struct } from './paper.ts';

/** A strip of the page: the whole width, or what is left beside a picture. */
export interface Strip {
  readonly x: number;
  readonly width: number;
}

/** Lines of one structure element, over a page break where they must. */
export function flow(paper: Paper, lines: readonly string[], letters: Letters, strip: Strip, struct: Struct): void {
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

/** A paragraph as a structure element of its own. */
export function paragraph(
  paper: Paper,
  words: string,
  letters: Letters,
  strip: Strip,
  type = 'P',
  parent = paper.root,
): void {
  const struct = paper.tag(parent, type);
  const lines = paper.wrap(words, letters, strip.width);
  // A short paragraph stays together; a long one may go over.
  if (lines.length <= 4) paper.need(lines.length * letters.line);
  flow(paper, lines, letters, strip, struct);
  struct.end();
}
