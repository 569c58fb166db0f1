import { useState } from 'react';
import type { Answer } from '../../../../shared/contract/contract.ts';
import type { Problem } from '../../../../shared/basics/result.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { ask } from '../../../stores/ask.ts';
import { timeWords } from '../../../words/days.ts';

type Offered = Answer<'backups.found'>['backups'][number];

/** A backup taken up by a bench at which nobody has worked yet: another computer, or this one with a new disk. */
export function BringBack() {
  const [folder, setFolder] = useState('');
  const [found, setFound] = useState<readonly Offered[]>();
  const [problem, setProblem] = useState<Problem>();
  const [said, setSaid] = useState<string>();
  const look = async (): Promise<void> => {
    setProblem(undefined);
    setSaid(undefined);
    setFound((await ask('backups.found', { folder }, setProblem))?.backups);
  };
  const restore = async ({ file }: Offered): Promise<void> => {
    setProblem(undefined);
    const laid = await ask('backups.restore', { file }, setProblem);
    if (laid !== undefined)
      setSaid(
        `${laid.bench}, ${laid.builds} builds of ${timeWords(laid.at)}: taken up when the bench is started again.`,
      );
  };
  return (
    <Reveal label="Bring a backup back" words="Bring a backup back">
      <Field
        label="Path of the folder with the backups"
        value={folder}
        onChange={setFolder}
        error={problem === undefined ? undefined : `${problem.sentence} ${problem.remedy}`}
      />
      <Button disabled={folder.trim() === ''} onPress={() => void look()}>
        Look there
      </Button>
      {found === undefined ? undefined : <Found found={found} onChoose={(one) => void restore(one)} />}
      {said === undefined ? undefined : <p role="status">{said}</p>}
    </Reveal>
  );
}

function Found({ found, onChoose }: { readonly found: readonly Offered[]; readonly onChoose: (one: Offered) => void }) {
  if (found.length === 0) return <p className="quiet">There is no backup in that folder.</p>;
  return (
    <ul className="sheet__found">
      {found.map((one) => (
        <li key={one.file}>
          <span>
            {one.bench}, {timeWords(one.at)}, {one.builds} {one.builds === 1 ? 'build' : 'builds'}
          </span>
          <Button onPress={() => onChoose(one)} more={`${one.bench}, ${timeWords(one.at)}`}>
            Bring it back
          </Button>
        </li>
      ))}
    </ul>
  );
}
