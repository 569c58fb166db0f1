import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import type { CheckState } from '../../../../shared/job/checks/readiness.ts';
import { Button } from '../../../parts/Button.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import { shapeOf, standingSentence } from '../../../../shared/presentation/words/standing.ts';

interface InTheWayProps {
  readonly build: Build;
  readonly assembly: Assembly;
  readonly states: readonly CheckState[];
}

/** What keeps the gate shut, each with its number and the two ways out: take it, or override it with a reason. */
export function InTheWay({ build, assembly, states }: InTheWayProps) {
  const units = useSession((session) => session.units);
  if (states.length === 0) return undefined;
  return (
    <ul className="in-the-way">
      {states.map((state) => {
        const at = { build: build.id, assembly: assembly.id, check: state.check.id };
        const { measurement } = state;
        return (
          <li key={state.check.id} className="in-the-way__one">
            <StateMark shape={shapeOf(state)} size={20} />
            <span className="in-the-way__words">{standingSentence(state, measurement, units)}</span>
            <Button onPress={() => go({ at: 'check', ...at })} more={state.check.title}>
              {measurement === undefined ? 'Take it' : 'Take anew'}
            </Button>
            <Button look="quiet" onPress={() => go({ at: 'settle', ...at })} more={state.check.title}>
              Override
            </Button>
          </li>
        );
      })}
    </ul>
  );
}
