/** Blank space and comments. */
const blank = /\s+|\/\/[^\n]*|\/\*[\s\S]*?\*\//uy;
const text = /'(?:[^'\\\n]|\\[\s\S])*'|"(?:[^"\\\n]|\\[\s\S])*"/uy;
/** A template, or what follows an expression in it, up to its end or its next expression. */
const template = /[`}](?:[^`\\$]|\\[\s\S]|\$(?!\{))*(?:`|\$\{)/uy;
const pattern = /\/(?:[^\\/[\n]|\\.|\[(?:[^\]\\\n]|\\.)*\])+\/[a-z]*/uy;
const word = /[\p{L}\p{N}_$]+/uy;

/** Behind these a stroke divides, and begins no regular expression. */
const endsValue = /^(?:[\p{L}\p{N}_$].*|['"`].*|[)\]}]|\}.*`)$/su;
const beforePattern = new Set([
  'return',
  'typeof',
  'case',
  'in',
  'of',
  'void',
  'throw',
  'else',
  'do',
  'yield',
  'await',
]);

/**
 * A source without its comments, and with one space where there was any blank: two that differ in nothing else run alike. Strings,
 * templates and regular expressions stay as they are.
 * @param source TypeScript as this program is written: statements end in semicolons, so that no line's end carries meaning, and
 * no statement begins with a regular expression.
 */
export function codeAlone(source: string): string {
  const parts: string[] = [];
  let value = '';
  // For each template that is open: how many braces are, in its expression.
  const open: number[] = [];
  for (let at = 0; at < source.length;) {
    const space = matched(blank, source, at);
    if (space !== '') {
      at += space.length;
      if (parts.at(-1) !== ' ') parts.push(' ');
      continue;
    }
    const part = partAt(source, at, { value, inTemplate: open.at(-1) === 0 });
    keepCount(open, part);
    parts.push(part);
    value = part;
    at += part.length;
  }
  return parts.join('').trim();
}

interface Around {
  /** The part before this one that was not blank. */
  readonly value: string;
  /** Whether a closing brace here ends an expression of a template. */
  readonly inTemplate: boolean;
}

function partAt(source: string, at: number, { value, inTemplate }: Around): string {
  const sign = source.charAt(at);
  const divides = endsValue.test(value) && !beforePattern.has(value);
  const kinds = [
    text,
    ...(sign === '`' || (sign === '}' && inTemplate) ? [template] : []),
    ...(sign === '/' && !divides ? [pattern] : []),
    word,
  ];
  for (const kind of kinds) {
    const found = matched(kind, source, at);
    if (found !== '') return found;
  }
  return String.fromCodePoint(source.codePointAt(at) ?? 0);
}

function keepCount(open: number[], part: string): void {
  const braces = open.at(-1);
  if (part === '{' && braces !== undefined) open[open.length - 1] = braces + 1;
  else if (part === '}' && braces !== undefined) open[open.length - 1] = braces - 1;
  else if (part.startsWith('`') && part.endsWith('${')) open.push(0);
  else if (part.length > 1 && part.startsWith('}') && part.endsWith('`')) open.pop();
}

function matched(kind: RegExp, source: string, at: number): string {
  kind.lastIndex = at;
  return kind.exec(source)?.[0] ?? '';
}
