import { useEffect } from 'react';
import type { BackupState } from '../../../../shared/contract/backups.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { Button } from '../../../parts/Button.tsx';
import { FolderChoice } from '../../../parts/FolderChoice.tsx';
import { backUpNow, chooseBackupFolder, loadBackups, stopBackup, useBackups } from '../../../stores/backups.ts';
import { timeWords } from '../../../words/days.ts';
import { BringBack } from './BringBack.tsx';
import { StandingPart } from './StandingPart.tsx';

/** Where the records are copied to, when that was done last, and a copy brought back. */
export function Backups() {
  const state = useBackups((seen) => seen.state);
  useEffect(() => void loadBackups(), []);
  if (state === undefined) return undefined;
  return (
    <StandingPart heading="Backup" stands={standWords(state)} problem={state.problem}>
      {state.sameDisk ? (
        <p className="quiet">It lies on the disk of the records. A stick or another disk outlives that one.</p>
      ) : undefined}
      <Now state={state} />
      <FolderChoice
        label="Folder for backups"
        folder={isNone(state.folder) ? '' : state.folder}
        words={choiceWords}
        onChoose={chooseBackupFolder}
      />
      <BringBack />
    </StandingPart>
  );
}

function Now({ state }: { readonly state: BackupState }) {
  if (isNone(state.folder)) return undefined;
  if (state.share === undefined) return <Button onPress={() => void backUpNow()}>Back up now</Button>;
  return (
    <p className="sheet__progress">
      <progress value={state.share} aria-label="Backup" />
      <Button look="quiet" onPress={() => void stopBackup()}>
        Stop
      </Button>
    </p>
  );
}

function standWords({ folder, last, waiting, share }: BackupState): string {
  if (isNone(folder)) return 'No folder is chosen: the records are on this disk alone.';
  if (share !== undefined) return `Writing to ${folder}: ${Math.round(share * 100)} %.`;
  if (isNone(last)) return `None has been made in ${folder} yet. One is made when nobody works, and at the end.`;
  const size = `${Math.max(1, Math.round(last.bytes / 1e6))} MB`;
  const builds = `${last.builds} ${last.builds === 1 ? 'build' : 'builds'}`;
  const more = waiting ? ' More has been recorded since.' : ' Nothing has been recorded since.';
  return `The last one is of ${timeWords(last.at)}: ${builds}, ${size}, in ${folder}.${more}`;
}

const choiceWords = {
  first: 'Choose a folder or stick',
  other: 'Change the folder',
  choose: 'Back up there',
  none: 'No backups',
} as const;
