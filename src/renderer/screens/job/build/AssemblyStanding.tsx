import { type Assembly, type Build, currentAssembly, latest } from '../../../../shared/job/records/build.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { readinessOf } from '../../../../shared/job/checks/readiness.ts';
import { MarkPicture } from '../../../instruments/MarkPicture.tsx';
import { RingPicture } from '../../../instruments/RingPicture.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { ReclockPanel } from '../../checks/together/ReclockPanel.tsx';
import { TogetherPanel } from '../../checks/together/TogetherPanel.tsx';
import { ExpectedPanel } from '../../shims/swap/ExpectedPanel.tsx';
import { AssemblyFacts } from './AssemblyFacts.tsx';
import { standOf } from './gate.ts';
import { InTheWay } from './InTheWay.tsx';
import { Overridden } from './Overridden.tsx';

/** One assembly: its gate, what stands in the way, what was overridden, and the gear as it was measured. */
export function AssemblyStanding({
  build,
  assembly,
}: {
  readonly build: Build & { readonly makeUp: MakeUp };
  readonly assembly: Assembly;
}) {
  const readiness = readinessOf(build, assembly);
  const past = assembly !== currentAssembly(build);
  const stand = standOf(assembly, readiness, past);
  const measured = latest(assembly, 'backlash') !== undefined || latest(assembly, 'ring-gear-runout') !== undefined;
  return (
    <div className="standing">
      <div className="standing__words">
        <h2 className={`standing__gate${past ? ' standing__gate--past' : ''}`}>
          <StateMark shape={stand.shape} size={past ? 22 : 40} />
          {stand.title}
        </h2>
        <AssemblyFacts assembly={assembly} />
        <InTheWay build={build} assembly={assembly} states={readiness.inTheWay} />
        <ExpectedPanel build={build} assembly={assembly} />
        <Overridden states={readiness.states} />
        <TogetherPanel build={build} assembly={assembly} onlyTold />
        <ReclockPanel build={build} assembly={assembly} onlyWorth />
        <MarkPicture makeUp={build.makeUp} assembly={assembly} />
      </div>
      {measured ? <RingPicture build={build} assembly={assembly} /> : undefined}
    </div>
  );
}
