import type { Problem } from '../../shared/basics/result.ts';

export type DatabaseProblemKind =
  | 'no-folder'
  | 'database-in-use'
  | 'database-newer'
  | 'database-corrupt'
  | 'records-missing'
  | 'records-lost'
  | 'records-salvaged'
  | 'place-gone'
  | 'not-our-database'
  | 'database-read-only'
  | 'disk-full'
  | 'disk-error';

export type DatabaseProblem = Problem<DatabaseProblemKind>;

/** SQLite's word for what went wrong (SQLITE_FULL, SQLITE_IOERR_FSYNC …), or the system's (ENOSPC …), or ''. */
export function codeOf(error: unknown): string {
  const code = error instanceof Error ? (error as Error & { readonly code?: unknown }).code : undefined;
  return typeof code === 'string' ? code : '';
}

/**
 * What SQLite or the disk could not do, as one sentence for the technician.
 * An error that is no fault of the world (a wrong statement) is thrown on: it is a defect.
 */
export function databaseProblem(error: unknown, path: string): DatabaseProblem {
  const code = codeOf(error);
  const known = explanations.find((explanation) => explanation.codes.test(code));
  if (known === undefined) throw error;
  return { kind: known.kind, sentence: known.sentence(path, code), remedy: known.remedy };
}

interface Explanation {
  readonly codes: RegExp;
  readonly kind: DatabaseProblemKind;
  readonly sentence: (path: string, code: string) => string;
  readonly remedy: string;
}

const explanations: readonly Explanation[] = [
  {
    codes: /^(?:SQLITE_FULL|ENOSPC|EDQUOT)$/u,
    kind: 'disk-full',
    sentence: (path) => `The disk that holds ${path} is full, so nothing more can be written on it.`,
    remedy: 'Free some space on that disk; the bench keeps trying and writes the readings it is holding.',
  },
  {
    codes: /^(?:SQLITE_READONLY.*|EROFS)$/u,
    kind: 'database-read-only',
    sentence: (path) => `${path} can be read but not written.`,
    remedy: 'Give your user the right to write that file and its folder, or choose another data folder.',
  },
  {
    codes: /^(?:SQLITE_BUSY.*|SQLITE_LOCKED.*)$/u,
    kind: 'database-in-use',
    sentence: (path) => `${path} is in use by another bench on this computer.`,
    remedy: 'Close the other bench, or start this one with another data folder.',
  },
  {
    codes: /^SQLITE_CORRUPT.*$/u,
    kind: 'database-corrupt',
    sentence: (path) => `${path} is damaged. Nothing in it has been changed.`,
    remedy: 'Copy that file somewhere safe, then restore a backup or start with another data folder.',
  },
  {
    codes: /^SQLITE_NOTADB$/u,
    kind: 'not-our-database',
    sentence: (path) => `${path} is not an Axlewright database. Nothing in it has been changed.`,
    remedy: 'Move that file away, or start with another data folder.',
  },
  {
    codes:
      /^(?:ENOENT|ENOTDIR|EISDIR|EEXIST|EACCES|EPERM|ENAMETOOLONG|ELOOP|ERR_INVALID_ARG_VALUE|SQLITE_CANTOPEN.*|SQLITE_PERM)$/u,
    kind: 'no-folder',
    // Node's own word for a name with a zero in it says nothing to a person.
    sentence: (path, code) => `${path} cannot be opened or made${code.startsWith('ERR_') ? '' : ` (${code})`}.`,
    remedy: 'Check that the folder exists and that your user may write in it, or choose another data folder.',
  },
  {
    codes: /^(?:EMFILE|ENFILE)$/u,
    kind: 'disk-error',
    sentence: (path) => `${path} cannot be opened: this system lets the bench open no more files.`,
    remedy: 'Close other programs, or raise the number of files a program may open (ulimit -n).',
  },
  {
    // Every other word of the system's own is of the world, and no fault of the program.
    codes: /^(?:SQLITE_IOERR.*|E[A-Z0-9]+)$/u,
    kind: 'disk-error',
    sentence: (path, code) => `The disk that holds ${path} reports an error (${code}).`,
    remedy: 'Back up the data folder now and check the disk.',
  },
];
