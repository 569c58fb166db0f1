import { assemblyName, type Build } from '../../../../shared/job/records/build.ts';
import type { Phase } from '../../../../shared/job/records/checkIds.ts';
import { checksOf } from '../../../../shared/job/checks/checks.ts';
import { isDescribed } from '../../../../shared/job/checks/readiness.ts';
import { stripOf } from '../../../../shared/job/checks/strip.ts';
import { MarkPicture } from '../../../instruments/MarkPicture.tsx';
import { AssemblyFacts } from '../build/AssemblyFacts.tsx';
import { TrialFigures } from '../../shims/trials/TrialColumn.tsx';
import '../../shims/trials/trials.css';

interface AheadProps {
  readonly build: Build;
  readonly phase: Phase;
}

/** Beside what is chosen: what came before it, which it is compared with, and what will be asked of it. */
export function Ahead({ build, phase }: AheadProps) {
  const before = stripOf(build).at(-1);
  return (
    <div className="ahead">
      {before === undefined ? undefined : (
        <section className="ahead__part">
          <h2 className="form__heading">{assemblyName(before.assembly)}, before it</h2>
          <AssemblyFacts assembly={before.assembly} />
          <TrialFigures entry={before} />
          {isDescribed(build) && before.mark !== undefined ? (
            <MarkPicture makeUp={build.makeUp} assembly={before.assembly} />
          ) : undefined}
        </section>
      )}
      <Asked build={build} phase={phase} />
    </div>
  );
}

/** What hands and gauges have to be ready for. */
function Asked({ build, phase }: AheadProps) {
  if (!isDescribed(build)) return undefined;
  const asked = checksOf(phase, build.makeUp).filter(({ needed }) => needed === 'required');
  return (
    <section className="ahead__part">
      <h2 className="form__heading">Asked in it</h2>
      <ul className="ahead__asked">
        {asked.map(({ id, title }) => (
          <li key={id}>{title}</li>
        ))}
      </ul>
    </section>
  );
}
