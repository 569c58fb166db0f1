import { fail, ok, type Problem, type Result } from '../basics/result.ts';

type LinkProblem = 'wrong-link';

/** A link, or everything that is wrong with it: `problem` is the first of `problems`. */
export type LinkRead<T> = Result<T, LinkProblem> & { readonly problems?: readonly Problem<LinkProblem>[] };

/** What is wrong with a link, with the part of it named. */
export const wrongPart = (field: string, what: string, remedy: string): Problem<LinkProblem> => ({
  kind: 'wrong-link',
  field,
  sentence: `${what}.`,
  remedy,
});

const refused = (first: Problem<LinkProblem>, others: readonly Problem<LinkProblem>[]): LinkRead<never> => ({
  ...fail(first),
  problems: [first, ...others],
});

/** Wrong from the beginning: there is nothing further to look at. */
export const wrong = (field: string, what: string, remedy: string): LinkRead<never> =>
  refused(wrongPart(field, what, remedy), []);

/** The options of a link, each taken once; those left over at the end are ones nobody knows. */
interface Options {
  readonly take: (name: string) => string | undefined;
  readonly rest: () => readonly string[];
}

export function optionsIn(text: string): Options {
  const given = new Map<string, string>();
  for (const part of text.split('&').filter((each) => each !== '')) {
    const at = part.indexOf('=');
    given.set(at < 0 ? part : part.slice(0, at), at < 0 ? '' : decodeBytes(part.slice(at + 1)));
  }
  return {
    take: (name) => {
      const value = given.get(name);
      given.delete(name);
      return value;
    },
    rest: () => [...given.keys()],
  };
}

/** Takes options one after the other and remembers those that are wrong. */
export function reader(options: Options) {
  const problems: Problem<LinkProblem>[] = [];
  const refuse = (name: string, value: string, allowed: string): undefined => {
    problems.push(wrongPart(name, `${name}=${value} is not possible`, `Allowed for ${name}: ${allowed}.`));
  };
  return {
    refuse: (problem: Problem<LinkProblem>): void => void problems.push(problem),
    whole: (name: string, usual: number, least: number, most: number): number => {
      const value = options.take(name);
      if (value === undefined) return usual;
      const number = /^\d{1,9}$/u.test(value) ? Number(value) : -1;
      if (number >= least && number <= most) return number;
      refuse(name, value, `a whole number from ${least} to ${most}`);
      return usual;
    },
    oneOf: <T extends string>(name: string, usual: T, allowed: readonly T[]): T => {
      const value = options.take(name);
      if (value === undefined) return usual;
      return allowed.find((each) => each === value) ?? refuse(name, value, allowed.join(', ')) ?? usual;
    },
    decimal: (name: string, usual: number, least: number, most: number): number => {
      const value = options.take(name);
      if (value === undefined) return usual;
      const number = /^\d*\.?\d+(?:e-?\d+)?$/iu.test(value) ? Number(value) : 0;
      if (number >= least && number <= most) return number;
      refuse(name, value, 'a number like 0.001');
      return usual;
    },
    /** What is sent as it stands, a byte a character. */
    bytes: (name: string): string | undefined => {
      const value = options.take(name);
      if (value === undefined || /^[\0-\u00FF]+$/u.test(value)) return value;
      refuse(name, value, 'one character or more, each of them one byte');
      return undefined;
    },
    finish: <T extends { readonly kind: string }>(link: T): LinkRead<T> => {
      for (const name of options.rest()) {
        const what = `A ${link.kind} link has no option "${name}"`;
        problems.push(wrongPart(name, what, 'Take it out or correct its spelling.'));
      }
      const [first, ...others] = problems;
      return first === undefined ? ok(link) : refused(first, others);
    },
  };
}

/** %0D is one byte, whatever its value: gauges are asked in bytes, not in UTF-8. */
export const decodeBytes = (text: string): string =>
  text.replaceAll(/%([0-9A-Fa-f]{2})/gu, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));

export const encodeBytes = (text: string): string => text.replaceAll(/[^A-Za-z0-9_.~-]/gu, escaped);
export const encodePath = (path: string): string => path.replaceAll(/[%?#&\s]/gu, escaped);
/** A character of more than one byte has no such form: it stays as it is, for {@link reader} to refuse. */
const escaped = (character: string): string => {
  const code = character.charCodeAt(0);
  return code > 0xff ? character : `%${code.toString(16).toUpperCase().padStart(2, '0')}`;
};
