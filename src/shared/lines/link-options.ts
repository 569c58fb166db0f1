import { fail, ok, type Result } from '../result.ts';

export type LinkProblem = 'wrong-link';

/** What is wrong with a link, with the part of it named. */
export const wrong = (field: string, what: string, remedy: string): Result<never, LinkProblem> =>
  fail({ kind: 'wrong-link', field, sentence: `${what}.`, remedy });

/** The options of a link, each taken once; those left over at the end are ones nobody knows. */
export interface Options {
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

/** Takes options one after the other and remembers the first that is wrong. */
export function reader(options: Options) {
  let problem: Result<never, LinkProblem> | undefined;
  const refuse = (name: string, value: string, allowed: string): undefined => {
    problem ??= wrong(name, `${name}=${value} is not possible`, `Allowed for ${name}: ${allowed}.`);
  };
  return {
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
    text: (name: string): string | undefined => options.take(name),
    finish: <T extends { readonly kind: string }>(link: T): Result<T, LinkProblem> => {
      const unknown = options.rest()[0];
      if (problem !== undefined) return problem;
      if (unknown === undefined) return ok(link);
      return wrong(unknown, `A ${link.kind} link has no option "${unknown}"`, 'Take it out or correct its spelling.');
    },
  };
}

/** %0D is one byte, whatever its value: gauges are asked in bytes, not in UTF-8. */
export const decodeBytes = (text: string): string =>
  text.replaceAll(/%([0-9A-Fa-f]{2})/gu, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));

export const encodeBytes = (text: string): string => text.replaceAll(/[^A-Za-z0-9_.~-]/gu, escaped);
export const encodePath = (path: string): string => path.replaceAll(/[%?#&\s]/gu, escaped);
const escaped = (character: string): string =>
  `%${character.charCodeAt(0).toString(16).toUpperCase().padStart(2, '0')}`;
