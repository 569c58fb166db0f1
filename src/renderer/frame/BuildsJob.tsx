import { useState } from 'react';
import type { Answer } from '../../shared/contract/contract.ts';
import type { BuildSummary } from '../../shared/contract/builds.ts';
import type { Laying } from '../../shared/job/records/notebook.ts';
import { Field } from '../parts/Field.tsx';
import { useBenchSeen } from '../stores/bench.ts';
import { useBuilds, useSought } from '../stores/builds.ts';
import { BuildRow } from './BuildRow.tsx';
import { IconButton } from './IconButton.tsx';
import { JobRow } from './JobRow.tsx';

/** More builds than fit on a screen get a line to find one by. */
const manyBuilds = 9;

const lyingWords: Readonly<Record<Exclude<Laying, 'on-the-bench'>, string>> = {
  'put-away': 'Put away',
  'thrown-away': 'Thrown away',
};

/** The builds there are, the one worked on last first; those put or thrown away behind a line of their own. */
export function BuildsJob() {
  const counts = useBuilds((seen) => seen.counts);
  const [sought, setSought] = useState('');
  const [where, setWhere] = useState<Laying>('on-the-bench');
  const isSought = sought.trim() !== '';
  const { builds, more } = useSought(isSought ? { words: sought } : { which: where });
  const all = counts?.all ?? 0;
  return (
    <>
      <header className="job__head">
        {where === 'on-the-bench' ? undefined : (
          <IconButton icon="back" label="Back to the builds" onPress={() => setWhere('on-the-bench')} />
        )}
        <h2 className="job__title">{where === 'on-the-bench' ? 'Builds' : lyingWords[where]}</h2>
      </header>
      {all > manyBuilds ? (
        <div className="job__search">
          <Field label="Find a build" type="search" value={sought} onChange={setSought} />
        </div>
      ) : undefined}
      <div className="job__steps">
        {builds?.length === 0 && isSought ? (
          <p className="job__empty">
            None of {all} has “{sought.trim()}”.
          </p>
        ) : (
          <BuildRows builds={builds} />
        )}
        {more === undefined ? undefined : <JobRow title="Show more" below="earlier builds" onPress={more} />}
        {where === 'on-the-bench' && !isSought ? <LyingRows counts={counts} onShow={setWhere} /> : undefined}
      </div>
    </>
  );
}

/** Where the others lie, with how many; nothing where there are none. */
function LyingRows({
  counts,
  onShow,
}: {
  readonly counts: Answer<'builds.counts'> | undefined;
  readonly onShow: (where: Laying) => void;
}) {
  return (['put-away', 'thrown-away'] as const).map((where) => {
    const count = counts?.[where] ?? 0;
    return count === 0 ? undefined : (
      <JobRow
        key={where}
        title={lyingWords[where]}
        below={count === 1 ? 'one build' : `${count} builds`}
        onPress={() => onShow(where)}
      />
    );
  });
}

function BuildRows({ builds }: { readonly builds: readonly BuildSummary[] | undefined }) {
  const presence = useBenchSeen((seen) => seen.presence);
  if (builds === undefined) {
    return (
      <p className="job__empty">
        {presence === 'here' ? 'Reading the builds …' : 'The builds stand here as soon as the bench is found.'}
      </p>
    );
  }
  if (builds.length === 0)
    return <p className="job__empty">Each axle you put on the stand becomes a build and is listed here.</p>;
  return builds.map((build) => <BuildRow key={build.id} build={build} />);
}
