import { type BigIntStats, statSync } from 'node:fs';
import type { DatabaseProblem } from './databaseProblem.ts';

/** Where a database lies, looked at again and again while it is open. */
export interface Place {
  /** Why nothing may be written there now; undefined while the file that was opened is where it was. */
  problem(): DatabaseProblem | undefined;
}

/**
 * A file that is open goes on taking rows after it was deleted or carried off with its folder, and nobody finds them
 * again. So the name is asked whether it still leads to the file that was opened: by its number on its disk.
 */
export function watchPlace(file: string): Place {
  const opened = look(file);
  return {
    problem() {
      const now = look(file);
      if (now !== undefined && now.ino === opened?.ino && now.dev === opened.dev) return undefined;
      return {
        kind: 'place-gone',
        sentence:
          now === undefined
            ? `${file} is not there any more: it was moved or deleted, or its disk was taken away. Nothing can be recorded.`
            : `Another file lies at ${file} than the one that was opened. Nothing can be recorded.`,
        remedy: 'Put the folder back where it was; the bench goes on by itself and writes what it is holding.',
      };
    },
  };
}

const look = (file: string): BigIntStats | undefined => {
  try {
    return statSync(file, { bigint: true });
  } catch {
    return undefined;
  }
};
