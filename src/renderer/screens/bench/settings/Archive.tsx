import type { ArchiveState } from '../../../../shared/contract/archive.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { useArchive } from '../../../stores/archive.ts';
import { useBuilds } from '../../../stores/builds.ts';
import { timeWords } from '../../../words/days.ts';
import { ArchiveChoice } from './ArchiveChoice.tsx';
import { StandingPart } from './StandingPart.tsx';

/** The archive of the shop: where it is, what was sent there last, and what waits. */
export function Archive() {
  const state = useArchive((seen) => seen.state);
  if (state === undefined) return undefined;
  return (
    <StandingPart heading="Archive" stands={standWords(state)} problem={state.problem}>
      {isNone(state.address) ? undefined : <p className="quiet">{passwordWords[state.password]}</p>}
      <Refused state={state} />
      <Beside state={state} />
      <ArchiveChoice state={state} />
    </StandingPart>
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
