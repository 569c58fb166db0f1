import { useState } from 'react';
import type { ArchiveState } from '../../../../shared/contract/archive.ts';
import { isNone, type Problem } from '../../../../shared/basics/result.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { chooseArchive, switchArchiveOff, testArchive } from '../../../stores/archive.ts';

interface Draft {
  readonly address: string;
  readonly password: string;
  readonly authority: string;
}

function draftOf({ address, authority }: ArchiveState): Draft {
  return { address: isNone(address) ? '' : address, password: '', authority: isNone(authority) ? '' : authority };
}

const reachOf = ({ address, password, authority }: Draft) => ({
  address,
  ...(password === '' ? {} : { password }),
  authority: authority.trim() === '' ? { none: 'known to everybody' } : authority,
});

/** Where the archive is, tried before it is chosen. */
export function ArchiveChoice({ state }: { readonly state: ArchiveState }) {
  const [draft, setDraft] = useState(() => draftOf(state));
  const [problem, setProblem] = useState<Problem>();
  const [said, setSaid] = useState('');
  const isOff = isNone(state.address);
  const asking = async (words: string, ask: () => Promise<boolean>): Promise<void> => {
    setProblem(undefined);
    setSaid('Asking the archive …');
    setSaid((await ask()) ? words : '');
  };
  const change = (change: Partial<Draft>): void => setDraft((now) => ({ ...now, ...change }));
  const empty = draft.address.trim() === '';
  return (
    <Reveal label="Archive of the shop" words={isOff ? 'Send to an archive' : 'Change or switch off'}>
      <Field
        label="Address of the archive"
        value={draft.address}
        onChange={(address) => change({ address })}
        hint="postgres://role@computer:5432/database"
        error={problem === undefined ? undefined : `${problem.sentence} ${problem.remedy}`}
      />
      <Field
        label="Password of the role"
        type="password"
        value={draft.password}
        onChange={(password) => change({ password })}
        hint={isOff ? undefined : 'Left empty, the one from before.'}
      />
      <Field
        label="File of the authority, on this computer"
        value={draft.authority}
        onChange={(authority) => change({ authority })}
        hint="Only where the shop signs its certificates itself."
      />
      <Button
        disabled={empty}
        onPress={() =>
          void asking('It would take what this bench sends.', () => testArchive(reachOf(draft), setProblem))
        }
      >
        Test it
      </Button>
      <Button
        disabled={empty}
        onPress={() =>
          void asking('Chosen. What waits is on its way.', () => chooseArchive(reachOf(draft), setProblem))
        }
      >
        Send there
      </Button>
      {isOff ? undefined : (
        <Button look="quiet" onPress={() => void asking('Switched off. The password is forgotten.', switchArchiveOff)}>
          Switch off
        </Button>
      )}
      {said === '' ? undefined : <p role="status">{said}</p>}
    </Reveal>
  );
}
