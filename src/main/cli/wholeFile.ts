import { readFileSync } from 'node:fs';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { codeOf } from '../store/databaseProblem.ts';

/** All bytes of the file that was given as FILE; a file that cannot be read is wrong use of the line. */
export function readBytes(path: string): Result<Buffer> {
  try {
    return ok(readFileSync(path));
  } catch (error) {
    return fail({
      kind: 'file-unreadable',
      field: 'FILE',
      sentence: `FILE: ${path} cannot be read (${codeOf(error)}).`,
      remedy: 'Check the path.',
    });
  }
}
