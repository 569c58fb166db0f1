import type { z } from 'zod';
import { fieldOf, wordsOf } from '../../shared/contract/refusal.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';

/**
 * One JSON object a line, each checked; the first bad line is named with its number and field. A single object may be laid out
 * over several lines, as an editor writes it.
 */
export function readJsonLines<T>(text: string, schema: z.ZodType<T>): Result<readonly T[]> {
  const values: T[] = [];
  const lines = isOneObject(text) ? [text] : text.split('\n');
  for (const [index, line] of lines.entries()) {
    if (line.trim() === '') continue;
    const read = readLine(line, index + 1, schema);
    if (!read.ok) return read;
    values.push(read.value);
  }
  return ok(values);
}

function isOneObject(text: string): boolean {
  if (!text.trim().includes('\n')) return false;
  try {
    return typeof JSON.parse(text) === 'object';
  } catch {
    return false;
  }
}

function readLine<T>(line: string, number: number, schema: z.ZodType<T>): Result<T> {
  try {
    const checked = schema.safeParse(JSON.parse(line));
    return checked.success ? ok(checked.data) : fail(badLine(number, wordsOf(checked.error), fieldOf(checked.error)));
  } catch {
    return fail(badLine(number, 'not JSON', ''));
  }
}

const badLine = (number: number, why: string, field: string): Problem => ({
  kind: 'bad-line',
  field: field === '' ? `line ${number}` : `line ${number}, ${field}`,
  sentence: `Line ${number}: ${why}.`,
  remedy: 'Correct this line and try again.',
});
