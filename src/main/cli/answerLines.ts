import type { z } from 'zod';
import { none, type Result } from '../../shared/basics/result.ts';
import { readJsonLines } from './jsonLines.ts';
import { type ExitCode, type Given, needed, noAnswer, type Output, wrongUse } from './verb.ts';
import { readText } from './wholeFile.ts';

/**
 * One object a line in, one answer a line out, in the same order. A wrong field stops before anything is answered; a
 * line that is well written but cannot be answered says so in its own place, and the verb ends with 1.
 */
export function answerLines<In, Out extends object>(
  given: Given,
  output: Output,
  schema: z.ZodType<In>,
  answer: (input: In) => Result<Out>,
): ExitCode {
  const path = needed(given, 'in');
  if (!path.ok) return wrongUse(output, path.problem);
  const text = readText(path.value, '--in');
  if (!text.ok) return wrongUse(output, text.problem);
  const lines = readJsonLines<In>(text.value, schema);
  if (!lines.ok) return wrongUse(output, lines.problem);
  let code: ExitCode = 0;
  for (const line of lines.value) {
    const answered = answer(line);
    output.answer(answered.ok ? answered.value : none(answered.problem.sentence));
    if (!answered.ok) code = noAnswer(output, answered.problem);
  }
  return code;
}
