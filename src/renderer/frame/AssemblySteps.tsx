import type { Assembly, Build } from '../../shared/job/records/build.ts';
import type { MakeUp } from '../../shared/axle/makeUp.ts';
import { type CheckState, type Next, readinessOf } from '../../shared/job/checks/readiness.ts';
import { go, type Route } from '../stores/route.ts';
import { useSession } from '../stores/session.ts';
import { packsBrief } from '../../shared/presentation/words/results.ts';
import { checkBrief } from '../../shared/presentation/words/answers.ts';
import { shapeOf, standingWords } from '../../shared/presentation/words/standing.ts';
import { JobRow } from './JobRow.tsx';

interface AssemblyStepsProps {
  readonly build: Build & { readonly makeUp: MakeUp };
  readonly assembly: Assembly;
  readonly route: Route;
  readonly next: Next;
}

/** The steps of one assembly, in the order in which they are done. */
export function AssemblySteps({ build, assembly, route, next }: AssemblyStepsProps) {
  const here = 'check' in route && route.assembly === assembly.id ? route.check : undefined;
  const nextCheck = nextCheckOf(next, assembly);
  return readinessOf(build, assembly).states.map((state) => (
    <Step
      key={state.check.id}
      state={state}
      here={here === state.check.id}
      next={nextCheck === state.check.id}
      onPress={() => go({ at: 'check', build: build.id, assembly: assembly.id, check: state.check.id })}
    />
  ));
}

function nextCheckOf(next: Next, assembly: Assembly): string | undefined {
  if (next.do === 'check' && next.assembly === assembly.id) return next.check.id;
  return next.do === 'settle' && next.assembly === assembly.id ? next.state.check.id : undefined;
}

interface StepProps {
  readonly state: CheckState;
  readonly here: boolean;
  readonly next: boolean;
  readonly onPress: () => void;
}

function Step({ state, here, next, onPress }: StepProps) {
  const units = useSession((session) => session.units);
  const { measurement, carriedFrom } = state;
  const words = state.standing === 'within' && state.closeCall ? 'close call' : standingWords(state);
  // An answer in its own words says where it stands: "it has play" needs no "outside" before it.
  const answered = measurement?.result.kind === 'confirmed' && state.override === undefined;
  const silent = answered || words === 'recorded' || words === 'within';
  const brief =
    measurement === undefined
      ? undefined
      : (packsBrief(measurement.result, units) ??
        checkBrief(state.check.id, measurement.result, units, measurement.how));
  const carried = carriedFrom === undefined ? '' : `, from ${carriedFrom.toLowerCase().replaceAll(' ', '\u00a0')}`;
  const missing = state.needed === 'optional' ? 'optional, not measured' : 'not measured';
  return (
    <JobRow
      title={state.check.title}
      below={brief === undefined ? missing : `${silent ? '' : `${words}, `}${brief}${carried}`}
      standing={words === 'within' ? words : undefined}
      typed={measurement?.how.kind === 'typed'}
      shape={shapeOf(state)}
      here={here}
      next={next}
      onPress={onPress}
    />
  );
}
