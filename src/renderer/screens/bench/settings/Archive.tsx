import { useState } from 'react';
import type { ArchiveState } from '../../../../shared/contract/archive.ts';
import { isNone, type Problem } from '../../../../shared/basics/result.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { chooseArchive, switchArchiveOff, testArchive, useArchive } from '../../../stores/archive.ts';
import { useBuilds } from '../../../stores/builds.ts';
import { timeWords } from '../../../words/days.ts';

/** The archive of the shop: where it is, what was sent there last, and what waits. */
export function Archive() {
  const state = useArchive((seen) => seen.state);
  if (state === undefined) return undefined;
  return (
    <section className="sheet__part">
      <h3>Archive</h3>
      <p role="status">{standWords(state)}</p>
      {state.problem === undefined ? undefined : (
        <p role="alert">
          {state.problem.sentence} {state.problem.remedy}
        </p>
      )}
      {isNone(state.address) ? undefined : <p className="quiet">{passwordWords[state.password]}</p>}
      <Refused state={state} />
      <Beside state={state} />
      <Where state={state} />
    </section>
  );
}

function standWords({ address, lastSent, waiting, sending }: ArchiveState): string {
  if (isNone(address))
    return 'This bench sends to none. A shop with several benches finds the builds of all of them in one.';
  const last = isNone(lastSent)
    ? `Nothing has been sent to ${address} yet.`
    : `Sent to ${address}, ${timeWords(lastSent)}.`;
  if (isNone(waiting)) return last;
  const { entries, readings, photos } = waiting;
  if (entries === 0) return `${last} Nothing waits.`;
  const each = [counted(entries, 'entry', 'entries'), counted(readings, 'reading'), counted(photos, 'photo')];
  return `${last} ${each.join(', ')} ${sending ? 'on their way' : 'waiting'}.`;
}

const passwordWords: Readonly<Record<ArchiveState['password'], string>> = {
  'in-keychain': 'Its password is sealed by the keychain of this system.',
  'in-file':
    'Its password lies in a file that only the owner of this account can read: no keychain of the system keeps it.',
  nowhere: 'No password is kept here.',
};

const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** What a build is called here; its id where it is not here. */
function useTitle(build: string): string {
  return useBuilds((seen) => seen.builds?.find(({ id }) => id === build)?.title) ?? build;
}

function Refused({ state: { refused } }: { readonly state: ArchiveState }) {
  const [first] = refused;
  if (first === undefined) return undefined;
  return (
    <>
      <p role="alert">
        {counted(refused.length, 'entry', 'entries')} not taken. {first.problem.sentence} {first.problem.remedy}
      </p>
      <ul className="sheet__found">
        {[...new Set(refused.map(({ build }) => build))].map((build) => (
          <RefusedBuild key={build} build={build} count={refused.filter((one) => one.build === build).length} />
        ))}
      </ul>
    </>
  );
}

function RefusedBuild({ build, count }: { readonly build: string; readonly count: number }) {
  return (
    <li>
      {useTitle(build)}: {counted(count, 'entry', 'entries')}
    </li>
  );
}

const mostShown = 5;

function Beside({ state: { beside } }: { readonly state: ArchiveState }) {
  return beside.slice(0, mostShown).map((one) => <BesideLine key={`${one.build} ${one.bench}`} {...one} />);
}

function BesideLine({ build, bench, at }: ArchiveState['beside'][number]) {
  return (
    <p>
      {bench} wrote in {useTitle(build)} too, {timeWords(at)}. What both wrote is kept; the build itself offers to bring
      it here.
    </p>
  );
}

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

function Where({ state }: { readonly state: ArchiveState }) {
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
