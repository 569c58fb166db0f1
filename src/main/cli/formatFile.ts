import { automatic, type LineFormat, parseLineFormat } from '../../shared/gauges/lineFormat.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { readText } from './wholeFile.ts';
import { ofOption } from './options.ts';

/**
 * The line format an option names: the word `auto`, a file that holds a format, or one that holds what `learn` answered,
 * so that its answer can be kept as it came.
 */
export function readFormat(written: string): Result<LineFormat> {
  if (written === 'auto') return ok(automatic);
  const text = readText(written, '--format');
  if (!text.ok) return text;
  const parsed = parsedJson(text.value);
  if (!parsed.ok) return parsed;
  const format = parseLineFormat(inLearned(parsed.value));
  return format.ok ? format : fail(ofOption('format', format.problem));
}

function parsedJson(text: string): Result<unknown> {
  try {
    return ok(JSON.parse(text) as unknown);
  } catch {
    return fail({
      kind: 'wrong-format',
      field: '--format',
      sentence: '--format: the file is not JSON.',
      remedy: 'Give a line format as learn answers it, or the word auto.',
    });
  }
}

const inLearned = (value: unknown): unknown =>
  typeof value === 'object' && value !== null && 'format' in value && 'confidence' in value ? value.format : value;
