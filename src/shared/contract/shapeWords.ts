import { z } from 'zod';

/** So many names stand in one sentence; more of them help nobody. */
const mostNamed = 3;

type Issue = z.core.$ZodRawIssue;

/**
 * What is wrong with a value, in few plain words that follow its field: "ringTeeth: below 10". Given to zod once, here, so
 * that no sentence anywhere speaks of inputs, expected types and received ones.
 */
function shapeWords(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return wrongType(issue.expected, issue.input);
    case 'invalid_value':
      return missingOr(issue.input, `not ${listed(issue.values.map(inQuotes), 'or')}`);
    case 'too_big':
      return tooBig(issue);
    case 'too_small':
      return tooSmall(issue);
    case 'invalid_format':
      return `not ${formats[issue.format] ?? 'written as it must be'}`;
    case 'unrecognized_keys':
      return `${listed(issue.keys.map(inQuotes), 'and')} not known here`;
    case 'invalid_union':
      return missingOr(issue.input, 'none of what may stand here');
    case 'not_multiple_of':
      return `not a multiple of ${String(issue.divisor)}`;
    default:
      return 'not possible';
  }
}

z.config({ localeError: shapeWords });

const missingOr = (input: unknown, words: string): string => (input === undefined ? 'missing' : words);

function wrongType(expected: string, input: unknown): string {
  if (expected === 'number' && typeof input === 'number') return 'not a finite number';
  return missingOr(input, `not ${types[expected] ?? expected}`);
}

const types: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'text',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'a group of fields',
  record: 'a group of fields',
};

const formats: Readonly<Record<string, string>> = {
  datetime: 'a date and time with its zone',
  date: 'a day like 2026-05-31',
  base64: 'base64',
};

function tooBig({ origin, maximum, inclusive }: Extract<Issue, { code: 'too_big' }>): string {
  if (origin === 'string') return `longer than ${maximum} characters`;
  if (origin === 'array') return `more than ${maximum}`;
  return inclusive === false ? `not below ${maximum}` : `above ${maximum}`;
}

function tooSmall({ origin, minimum, inclusive }: Extract<Issue, { code: 'too_small' }>): string {
  if (origin === 'string') return minimum === 1 ? 'empty' : `shorter than ${minimum} characters`;
  if (origin === 'array') return minimum === 1 ? 'empty' : `fewer than ${minimum}`;
  return inclusive === false ? `not above ${minimum}` : `below ${minimum}`;
}

const inQuotes = (value: unknown): string => (typeof value === 'string' ? `"${value.slice(0, 60)}"` : String(value));

/** A few of the words, and how many more there are. */
function listed(words: readonly string[], joint: 'and' | 'or'): string {
  const named = words.length > mostNamed + 9 ? words.slice(0, mostNamed) : words;
  const more = words.length - named.length;
  const all = more > 0 ? [...named, `${more} more`] : named;
  return all.length === 1 ? (all[0] ?? '') : `${all.slice(0, -1).join(', ')} ${joint} ${all.at(-1)}`;
}
