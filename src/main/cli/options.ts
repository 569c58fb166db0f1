import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Given } from './verb.ts';

/** One of a few words, or the usual one where none was given. */
export function choice<const Word extends string>(
  given: Given,
  name: string,
  words: readonly Word[],
  usual: Word,
): Result<Word> {
  const written = given.text(name) ?? usual;
  const word = words.find((one) => one === written);
  return word === undefined ? fail(notPossible(name, written, `Use ${words.join(' or ')}.`)) : ok(word);
}

interface Range {
  readonly least: number;
  readonly most: number;
  readonly whole?: boolean;
}

/** A plain number within a range; undefined where none was given. */
export function numberOption(
  given: Given,
  name: string,
  { least, most, whole = false }: Range,
): Result<number | undefined> {
  const written = given.text(name);
  if (written === undefined) return ok(undefined);
  const number = /^\d+(?:\.\d+)?$/u.test(written) ? Number(written) : Number.NaN;
  if (number >= least && number <= most && (!whole || Number.isInteger(number))) return ok(number);
  return fail(notPossible(name, written, `Give a ${whole ? 'whole ' : ''}number from ${least} to ${most}.`));
}

const notPossible = (name: string, written: string, remedy: string): Problem => ({
  kind: 'wrong-option',
  field: `--${name}`,
  sentence: `--${name} is "${written}".`,
  remedy,
});

/** The same problem, said of the option whose text it was found in. */
export const ofOption = (name: string, problem: Problem): Problem => ({
  ...problem,
  field: `--${name}${problem.field === undefined ? '' : `, ${problem.field}`}`,
  sentence: `--${name}: ${problem.sentence}`,
});
