import type { LineFormat } from '../lineFormat.ts';
import { lineSplitter } from '../splitLines.ts';
import { isNoise, textOf } from '../text.ts';

/** What was heard, cut into whole lines. */
export interface HeardLines {
  readonly lineEnd: LineFormat['lineEnd'];
  readonly start?: string;
  readonly lines: readonly Uint8Array[];
}

/** CR and LF end most lines; some gauges close with the end-of-text mark alone. */
const lineEnds: readonly LineFormat['lineEnd'][] = ['any', '\u0003', ';'];

/** Cuts bytes into lines by whatever ends them; the first and the last may be halves and are left out. */
export function heardLines(bytes: Uint8Array): HeardLines | undefined {
  for (const lineEnd of lineEnds) {
    const cut = lineSplitter(lineEnd)
      .push(bytes)
      .filter((line) => line.ending === 'whole')
      .map((line) => line.bytes);
    const lines = cut.slice(1).filter((line) => line.some((byte) => byte > 0x20));
    if (lines.length > 0) return { lineEnd, lines, ...startOf(lines) };
  }
  return undefined;
}

function startOf(lines: readonly Uint8Array[]): { readonly start?: string } {
  return lines.every((line) => line[0] === 0x02) ? { start: '\u0002' } : {};
}

/** The share of lines that are text, which a wrong baud rate, parity or number of bits spoils. */
export const shareOfText = (lines: readonly Uint8Array[]): number =>
  lines.length === 0 ? 0 : lines.filter((line) => !isNoise(textOf(line))).length / lines.length;
