import type { LineFormat } from './lineFormat.ts';
import { bytesOf } from './text.ts';

/** No gauge's line is longer; what goes on without an end is not kept in memory. */
export const longestLine = 256;

export interface RawLine {
  /** Without its line end; at most {@link longestLine} bytes. */
  readonly bytes: Uint8Array;
  readonly ending: 'whole' | 'endless' | 'cut-off';
}

interface LineSplitter {
  /** Takes what came in and gives the lines it completes, in order. Empty lines are none. */
  readonly push: (bytes: Uint8Array) => RawLine[];
  /** The link is gone: what is left of a line, if anything. */
  readonly end: () => RawLine[];
}

/**
 * Cuts a stream of bytes into lines. Memory is bounded: of an endless line the first bytes are given once as
 * `endless`, the rest is dropped up to the next line end.
 */
export function lineSplitter(lineEnd: LineFormat['lineEnd']): LineSplitter {
  const marks = lineEnd === 'any' ? [bytesOf('\r'), bytesOf('\n')] : [bytesOf(lineEnd)];
  const held = new Uint8Array(longestLine + (marks[0]?.length ?? 0));
  let length = 0;
  let overrun = false;

  const endsWith = (mark: Uint8Array): boolean => {
    if (length < mark.length) return false;
    for (let i = 0; i < mark.length; i += 1) if (held[length - mark.length + i] !== mark[i]) return false;
    return true;
  };

  const take = (upTo: number, ending: RawLine['ending']): RawLine | undefined => {
    length = 0;
    return upTo > 0 && !overrun ? { bytes: held.slice(0, upTo), ending } : undefined;
  };

  /** CR and LF left over from the line before ("\r" is the mark, "\r\n" was sent) begin no line. */
  const leftOver = (byte: number): boolean =>
    length === 0 && (byte === 0x0d || byte === 0x0a) && marks.every((mark) => mark[0] !== byte);

  const add = (byte: number): RawLine | undefined => {
    if (leftOver(byte)) return undefined;
    held[length] = byte;
    length += 1;
    const mark = marks.find(endsWith);
    if (mark === undefined && length < held.length) return undefined;
    const line = mark === undefined ? take(longestLine, 'endless') : take(length - mark.length, 'whole');
    overrun = mark === undefined;
    return line;
  };

  return {
    push: (bytes) => {
      const lines: RawLine[] = [];
      for (const byte of bytes) {
        const line = add(byte);
        if (line !== undefined) lines.push(line);
      }
      return lines;
    },
    end: () => {
      const rest = take(length, 'cut-off');
      overrun = false;
      return rest === undefined ? [] : [rest];
    },
  };
}
