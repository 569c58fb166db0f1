import { useState } from 'react';
import type { BuildSummary } from '../../shared/contract/builds.ts';
import { Field } from '../parts/Field.tsx';
import { useBenchSeen } from '../stores/bench.ts';
import { useBuilds } from '../stores/builds.ts';
import { go } from '../stores/route.ts';
import { dayWords } from '../words/days.ts';
import { JobRow } from './JobRow.tsx';

/** More builds than fit on a screen get a line to find one by. */
const manyBuilds = 9;

/** The builds there are, the one worked on last first. */
export function BuildsJob() {
  const builds = useBuilds((seen) => seen.builds);
  const [sought, setSought] = useState('');
  const found = builds?.filter((build) => matches(build, sought));
  return (
    <>
      <header className="job__head">
        <h2 className="job__title">Builds</h2>
      </header>
      {(builds?.length ?? 0) > manyBuilds ? (
        <div className="job__search">
          <Field label="Find a build" type="search" value={sought} onChange={setSought} />
        </div>
      ) : undefined}
      <div className="job__steps">
        <BuildRows builds={found} />
      </div>
    </>
  );
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
  return builds.map((build) => (
    <JobRow
      key={build.id}
      title={build.title}
      below={`${build.standsAt === '' ? 'Not assembled yet' : build.standsAt}, ${dayWords(build.lastEntryAt)}`}
      onPress={() => go({ at: 'build', build: build.id })}
    />
  ));
}

const matches = (build: BuildSummary, sought: string): boolean =>
  `${build.title} ${build.technician}`.toLowerCase().includes(sought.trim().toLowerCase());
