import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { codeOf } from '../store/databaseProblem.ts';

/** How much of a file is taken at once where nothing else is said; the longest text there is holds a little more (V8: 2^29 − 24). */
const most_MB = 500;
const piece_bytes = 1024 * 1024;

interface Wanted {
  /** As it was given; "-" is standard input. */
  readonly path: string;
  /** How the line calls it: --in, FILE. */
  readonly option: string;
  /** What is larger is refused, MB. */
  readonly most_MB?: number;
}

/**
 * All bytes of a file that the line names. Pipes are read to their end; what never ends (a device) or is larger than
 * `most_MB` is refused once that much has come, and a file that cannot be read is wrong use of the line.
 */
export function readBytes({ path, option, most_MB: most = most_MB }: Wanted): Result<Buffer> {
  let opened: number | undefined;
  try {
    opened = path === '-' ? 0 : openSync(path, 'r');
    const bytes = bytesOf(opened, most * 1024 * 1024);
    return bytes === undefined ? fail(tooLarge(path, option, most)) : ok(bytes);
  } catch (error) {
    return fail(unreadable(path, option, codeOf(error) || String(error)));
  } finally {
    if (opened !== undefined && opened !== 0) closeSync(opened);
  }
}

/** The same as text. */
export function readText(path: string, option: string): Result<string> {
  const bytes = readBytes({ path, option });
  return bytes.ok ? ok(bytes.value.toString('utf8')) : bytes;
}

/** Undefined where there is more than is taken. */
function bytesOf(opened: number, most_bytes: number): Buffer | undefined {
  if (fstatSync(opened).size > most_bytes) return undefined;
  const pieces: Buffer[] = [];
  const piece = Buffer.allocUnsafe(piece_bytes);
  let read_bytes = 0;
  for (;;) {
    const here = readSync(opened, piece);
    if (here === 0) return Buffer.concat(pieces, read_bytes);
    read_bytes += here;
    if (read_bytes > most_bytes) return undefined;
    pieces.push(Buffer.from(piece.subarray(0, here)));
  }
}

const unreadable = (path: string, option: string, code: string): Problem => ({
  kind: 'file-unreadable',
  field: option,
  sentence: `${option}: ${path} cannot be read (${code}).`,
  remedy: 'Check the path.',
});

const tooLarge = (path: string, option: string, most: number): Problem => ({
  kind: 'file-too-large',
  field: option,
  sentence: `${option}: ${path} is larger than the ${most} MB that are taken.`,
  remedy: 'Check that it is the right file.',
});
