import type { ParseArgsConfig } from 'node:util';
import type { Problem } from '../../shared/basics/result.ts';

/** Exit codes: 0 answered (outside limits is an answer), 1 no answer, 2 wrong use. */
export type ExitCode = 0 | 1 | 2;

export interface Output {
  /** One JSON answer on standard output; nothing else is ever written there. */
  answer(value: unknown): void;
  /** Words for the person, on standard error. */
  say(sentence: string): void;
}

export interface Verb {
  readonly name: string;
  /** What it does, in one line of the help. */
  readonly summary: string;
  /** How it is written, without the program's name. */
  readonly usage: string;
  readonly options: NonNullable<ParseArgsConfig['options']>;
  /** How many words it takes beside its options; from how many to how many, where that may differ. */
  readonly words?: number | readonly [least: number, most: number];
  run(given: Given, output: Output): Promise<ExitCode>;
}

export interface Given {
  readonly words: readonly string[];
  /** A text option, or undefined. */
  text(name: string): string | undefined;
  flag(name: string): boolean;
}

/** Wrong use: says what is wrong with which option, line or field, and ends with 2. */
export function wrongUse(output: Output, problem: Problem): 2 {
  output.say(sentenceOf(problem));
  return 2;
}

/** No answer: says why, and ends with 1. */
export function noAnswer(output: Output, problem: Problem): 1 {
  output.say(sentenceOf(problem));
  return 1;
}

const sentenceOf = ({ sentence, remedy }: Problem): string => `${sentence} ${remedy}`;

/** A needed option, or the problem that names it. */
export function needed(
  given: Given,
  name: string,
): { readonly ok: true; readonly value: string } | { readonly ok: false; readonly problem: Problem } {
  const value = given.text(name);
  if (value !== undefined) return { ok: true, value };
  return {
    ok: false,
    problem: {
      kind: 'option-missing',
      field: `--${name}`,
      sentence: `--${name} is needed.`,
      remedy: 'Add it and try again.',
    },
  };
}
