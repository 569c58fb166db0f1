import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';

/**
 * Tables of documents that rest on a bench say so in a comment above them, `<!-- figures of npm run bench NAME: COLUMN, COLUMN -->`.
 * What stands in those columns must have been printed by it, all figures of a row in one line, as rounded as they stand there.
 */
const root = resolve(import.meta.dirname, '..', '..');
const kept = join(root, 'tests', 'performance', 'figures');
const keptSchema = z.strictObject({
  bench: z.string(),
  at: z.iso.datetime(),
  machine: z.string(),
  load: z.number(),
  words: z.array(z.string()),
  lines: z.array(z.string()),
});

interface Marked {
  readonly document: string;
  readonly bench: string;
  /** The figures of each row, as they are written. */
  readonly rows: readonly (readonly string[])[];
}

const cellsOf = (line: string): readonly string[] =>
  line
    .split('|')
    .slice(1, -1)
    .map((cell) => cell.trim());

const numbersIn = (text: string): readonly string[] => text.match(/(?<![\w.])\d+(?:\.\d+)?(?![\w.]*\w)/gu) ?? [];

function markedIn(document: string): readonly Marked[] {
  const text = readFileSync(join(root, document), 'utf8');
  const marks = text.matchAll(/<!-- figures of npm run bench (\w+): (.+?) -->\n+((?:\|.*\n)+)/gu);
  return [...marks].map(([, bench = '', columns = '', table = '']) => {
    const [head = '', , ...rows] = table.trim().split('\n');
    const names = cellsOf(head);
    const places = columns.split(', ').map((column) => names.indexOf(column));
    expect(places, `${document}: ${columns} in ${head}`).not.toContain(-1);
    const figures = rows.map((row) => places.flatMap((place) => numbersIn(cellsOf(row)[place] ?? '')));
    return { document, bench, rows: figures };
  });
}

/** Whether one line has every figure, each to as many places as it is written with. */
function printed(lines: readonly string[], figures: readonly string[]): boolean {
  const rounds = (number: string, figure: string): boolean =>
    Number(number).toFixed(figure.split('.')[1]?.length ?? 0) === figure;
  return lines.some((line) => {
    const numbers = numbersIn(line.replaceAll(/(\d) (?:ms|s|%)/gu, '$1 '));
    return figures.every((figure) => numbers.some((number) => rounds(number, figure)));
  });
}

const documents = [
  'README.md',
  'DEVELOPERS.md',
  ...readdirSync(join(root, 'docs'), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.md'))
    .map((path) => join('docs', path)),
];

describe('figures in the documents', () => {
  const marked = documents.flatMap(markedIn);

  it('rest on benches that were run and kept', () => {
    expect(marked.length).toBeGreaterThan(0);
    const names = readdirSync(kept);
    for (const { bench, document } of marked) expect(names, document).toContain(`${bench}.json`);
  });

  it.each(marked)('of $document are those that $bench printed', ({ bench, rows }) => {
    const { lines } = keptSchema.parse(JSON.parse(readFileSync(join(kept, `${bench}.json`), 'utf8')));
    expect(rows.filter((row) => !printed(lines, row))).toEqual([]);
  });

  it('would be missed where one of them were another', () => {
    expect(printed(['plan: 0.374 s  1.2 s'], ['0.37', '1.2'])).toBe(true);
    expect(printed(['plan: 0.374 s', 'other: 1.2 s'], ['0.37', '1.2'])).toBe(false);
    expect(printed(['plan: 0.374 s'], ['0.38'])).toBe(false);
  });
});
