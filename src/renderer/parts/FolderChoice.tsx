import { useState } from 'react';
import type { Problem } from '../../shared/basics/result.ts';
import { Button } from './Button.tsx';
import { Field } from './Field.tsx';
import { Reveal } from './Reveal.tsx';

interface FolderChoiceProps {
  readonly label: string;
  /** The one that is chosen; empty where there is none. */
  readonly folder: string;
  readonly words: {
    readonly first: string;
    readonly other: string;
    readonly choose: string;
    readonly none: string;
  };
  /** Chooses a folder, or none. */
  readonly onChoose: (folder: string | undefined, onProblem: (problem: Problem) => void) => Promise<unknown>;
}

/** A folder of the bench's computer, by its path: chosen, changed, or given up. */
export function FolderChoice({ label, folder, words, onChoose }: FolderChoiceProps) {
  const [path, setPath] = useState(folder);
  const [problem, setProblem] = useState<Problem>();
  const choose = async (chosen: string | undefined): Promise<void> => {
    setProblem(undefined);
    await onChoose(chosen, setProblem);
  };
  return (
    <Reveal label={label} words={folder === '' ? words.first : words.other}>
      <Field
        label="Path of the folder, on this computer"
        value={path}
        onChange={setPath}
        error={problem === undefined ? undefined : `${problem.sentence} ${problem.remedy}`}
      />
      <Button disabled={path.trim() === ''} onPress={() => void choose(path)}>
        {words.choose}
      </Button>
      {folder === '' ? undefined : (
        <Button look="quiet" onPress={() => void choose(undefined)}>
          {words.none}
        </Button>
      )}
    </Reveal>
  );
}
