import { readFileSync } from 'node:fs';
import type { z } from 'zod';
import { fieldOf, wordsOf } from '../../shared/contract/refusal.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';

/** The longest text there is (V8: 2^29 − 24 characters). */
const mostText_MB = 512;

/** A file named on the command line, as text; "-" is standard input. */
export function readText(path: string, option: string): Result<string> {
  try {
    return ok(readFileSync(path === '-' ? 0 : path, 'utf8'));
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    const tooLong = code === 'ERR_STRING_TOO_LONG' || code === 'ERR_FS_FILE_TOO_LARGE';
    return fail({
      kind: 'file-unreadable',
      field: option,
      sentence: tooLong
        ? `${option}: ${path} is larger than the ${mostText_MB} MB that are read at once.`
        : `${option}: ${path} cannot be read (${code}).`,
      remedy: tooLong ? 'Split it.' : 'Check the path.',
    });
  }
}

/** One JSON object a line, each checked; the first bad line is named with its number and field. */
export function readJsonLines<T>(text: string, schema: z.ZodType<T>): Result<readonly T[]> {
  const values: T[] = [];
  for (const [index, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    const read = readLine(line, index + 1, schema);
    if (!read.ok) return read;
    values.push(read.value);
  }
  return ok(values);
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
