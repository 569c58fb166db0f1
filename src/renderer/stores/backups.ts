import { create } from 'zustand';
import type { BackupState } from '../../shared/contract/backups.ts';
import type { BenchClient } from '../../shared/contract/contract.ts';
import type { Problem } from '../../shared/basics/result.ts';
import { ask } from './ask.ts';

/** How the backups of this bench stand; undefined until the bench has answered. */
export const useBackups = create<{ readonly state: BackupState | undefined }>()(() => ({ state: undefined }));

const lay = (state: BackupState | undefined): boolean => {
  if (state !== undefined) useBackups.setState({ state });
  return state !== undefined;
};

export const loadBackups = async (): Promise<boolean> => lay(await ask('backups.state', {}));

export const followBackups = (client: BenchClient): (() => void) => client.hear('backup', (state) => void lay(state));

export const chooseBackupFolder = async (
  folder: string | undefined,
  onProblem: (problem: Problem) => void,
): Promise<boolean> => lay(await ask('backups.choose', { folder: folder ?? { none: 'none chosen' } }, onProblem));

/** What goes wrong stands in the state itself. */
export const backUpNow = async (): Promise<boolean> => lay(await ask('backups.make', {}, () => undefined));

export const stopBackup = async (): Promise<boolean> => lay(await ask('backups.stop', {}));
