import type { LineFormat } from './lineFormat.ts';

type Checking = Exclude<LineFormat['checksum']['is'], 'none'>;

/** Takes the check characters off a line, or gives undefined when they do not fit it. */
export function checksumReader(checksum: LineFormat['checksum']): (text: string) => string | undefined {
  if (checksum.is === 'none') return (text) => text;
  const over = overAll[checksum.is];
  return (text) => {
    const body = text.slice(0, -2);
    const said = text.slice(-2);
    return /^[0-9A-Fa-f]{2}$/u.test(said) && Number.parseInt(said, 16) === over(body) ? body : undefined;
  };
}

const codes = (text: string): number[] => Array.from(text, (character) => character.charCodeAt(0));

const xorOf = (text: string): number => codes(text).reduce((before, code) => before ^ code, 0);

const sumOf = (text: string): number => codes(text).reduce((before, code) => before + code, 0) & 0xff;

const overAll: Readonly<Record<Checking, (text: string) => number>> = { 'xor-hex': xorOf, 'sum-hex': sumOf };

/** Every sort of check characters that is known, in the order in which a line is tried against them. */
export const checkings = Object.keys(overAll) as readonly Checking[];
