import type { Problem } from '../../shared/basics/result.ts';
import { codeOf, databaseProblem } from '../store/databaseProblem.ts';

/** What the disk or SQLite said while a backup was written, as a sentence about the backup. */
export function backupProblem(error: unknown, folder: string): Problem {
  const code = codeOf(error);
  if (/^(?:SQLITE_FULL|ENOSPC|EDQUOT)$/u.test(code)) return full(folder);
  const { kind, sentence } = databaseProblem(error, folder);
  return {
    kind,
    sentence: `No backup was made. ${sentence}`,
    remedy: 'The earlier backups are as they were. Choose another folder, or try again.',
  };
}

export const full = (folder: string): Problem => ({
  kind: 'backup-full',
  sentence: `No backup was made: there is no room for it in ${folder}.`,
  remedy: 'The earlier backups are as they were. Make room there, or choose another folder or stick.',
});

export const noPlace = (folder: string): Problem => ({
  kind: 'no-backup-folder',
  field: 'folder',
  sentence: `${folder} is not there, or is no folder.`,
  remedy: 'Plug the stick in, or choose another folder.',
});

export const notABackup = (file: string, why: string): Problem => ({
  kind: 'not-a-backup',
  field: 'FILE',
  sentence: `${file} is no backup that can be trusted: ${why}.`,
  remedy: 'Take another one; every backup is a file of its own.',
});

export const stopped: Problem = {
  kind: 'stopped',
  sentence: 'The backup was stopped before it was whole.',
  remedy: 'The earlier backups are as they were.',
};

export const notChosen: Problem = {
  kind: 'no-backup-folder',
  field: 'folder',
  sentence: 'No folder has been chosen for backups.',
  remedy: 'Choose one in Settings: on a stick or another disk.',
};
