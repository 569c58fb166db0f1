import { useEffect, useState } from 'react';
import type { BackupState } from '../../../../shared/contract/backups.ts';
import { isNone, type Problem } from '../../../../shared/basics/result.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { backUpNow, chooseBackupFolder, loadBackups, stopBackup, useBackups } from '../../../stores/backups.ts';
import { timeWords } from '../../../words/days.ts';
import { BringBack } from './BringBack.tsx';

/** Where the records are copied to, when that was done last, and a copy brought back. */
export function Backups() {
  const state = useBackups((seen) => seen.state);
  useEffect(() => void loadBackups(), []);
  if (state === undefined) return undefined;
  return (
    <section className="sheet__part">
      <h3>Backup</h3>
      <p role="status">{standWords(state)}</p>
      {state.problem === undefined ? undefined : (
        <p role="alert">
          {state.problem.sentence} {state.problem.remedy}
        </p>
      )}
      {state.sameDisk ? (
        <p className="quiet">It lies on the disk of the records. A stick or another disk outlives that one.</p>
      ) : undefined}
      <Now state={state} />
      <FolderChoice folder={isNone(state.folder) ? '' : state.folder} />
      <BringBack />
    </section>
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

function FolderChoice({ folder }: { readonly folder: string }) {
  const [path, setPath] = useState(folder);
  const [problem, setProblem] = useState<Problem>();
  const choose = async (chosen: string | undefined): Promise<void> => {
    setProblem(undefined);
    await chooseBackupFolder(chosen, setProblem);
  };
  return (
    <Reveal label="Folder for backups" words={folder === '' ? 'Choose a folder or stick' : 'Change the folder'}>
      <Field
        label="Path of the folder, on this computer"
        value={path}
        onChange={setPath}
        error={problem === undefined ? undefined : `${problem.sentence} ${problem.remedy}`}
      />
      <Button disabled={path.trim() === ''} onPress={() => void choose(path)}>
        Back up there
      </Button>
      {folder === '' ? undefined : (
        <Button look="quiet" onPress={() => void choose(undefined)}>
          No backups
        </Button>
      )}
    </Reveal>
  );
}
