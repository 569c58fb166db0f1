import { useEffect, useState } from 'react';
import type { Answer } from '../../../../shared/contract/contract.ts';
import { ask } from '../../../stores/ask.ts';
import { useBenchSeen } from '../../../stores/bench.ts';

/** Builds that cannot be read, each with the reason: they are missing from the list, and nobody should look for them there. */
export function UnreadableBuilds() {
  const [builds, setBuilds] = useState<Answer<'builds.unreadable'>>([]);
  // Each such row is a standing warning of the bench: when there are more of them, this list may be longer.
  const rows = useBenchSeen((seen) => seen.about?.warnings.filter(({ kind }) => kind === 'unreadable').length ?? 0);
  useEffect(() => {
    let there = true;
    if (rows > 0) void ask('builds.unreadable', {}).then((found) => there && setBuilds(found ?? []));
    return () => void (there = false);
  }, [rows]);
  if (rows === 0 || builds.length === 0) return undefined;
  return (
    <section className="builds__unreadable">
      <h2>{builds.length === 1 ? 'One build cannot be read' : `${builds.length} builds cannot be read`}</h2>
      {builds.map(({ id, problem }) => (
        <p key={id}>
          {problem.sentence} {problem.remedy}
        </p>
      ))}
    </section>
  );
}
