import { readFileSync } from 'node:fs';

/** The text of one NIST StRD file kept beside these tests. */
export const nistText = (name: string): string =>
  readFileSync(new URL(`nist/${name}.dat`, import.meta.url), 'utf8').replaceAll('\r', '');

/** The rows of numbers at the end of a StRD file, below its "Data:" heading. */
export function nistRows(name: string): readonly (readonly number[])[] {
  const lines = nistText(name).split('\n');
  const heading = lines.findLastIndex((line) => /^Data\s*:/u.test(line));
  return lines
    .slice(heading + 1)
    .filter((line) => line.trim() !== '')
    .map((line) => line.trim().split(/\s+/u).map(Number))
    .filter((row) => row.every(Number.isFinite));
}

/** The number that stands after `label` in the file's certified part. */
export function certified(name: string, label: RegExp): number {
  const found = new RegExp(`${label.source}\\D*?([-+]?\\d[\\d.]*(?:E[-+]?\\d+)?)`, 'u').exec(nistText(name))?.[1];
  if (found === undefined) throw new Error(`${name}: nothing certified after ${label.source}`);
  return Number(found);
}

/** Estimate and standard deviation of coefficient `index` of a StRD regression file. */
export function certifiedCoefficient(name: string, index: number): readonly [number, number] {
  const found = new RegExp(`^\\s*B${index}\\s+(\\S+)\\s+(\\S+)`, 'mu').exec(nistText(name));
  return [Number(found?.[1]), Number(found?.[2])];
}

/** Correct significant digits: −log₁₀ of the relative error (absolute for a certified 0); 15 at most. */
export function correctDigits(found: number, expected: number): number {
  const error = Math.abs(found - expected) / (expected === 0 ? 1 : Math.abs(expected));
  return error === 0 ? 15 : Math.min(15, -Math.log10(error));
}
