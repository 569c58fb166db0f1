import { useMemo } from 'react';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import type { Problem } from '../../../../shared/basics/result.ts';
import { cutLearnt } from '../../../../shared/job/experience/cutLearnt.ts';
import { type Plannable, plannableOf } from '../../../../shared/job/planning/plannable.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { go, type Route } from '../../../stores/route.ts';
import { useEarlier } from '../../../planning/useEarlier.ts';
import { usePlan } from '../../../planning/usePlan.ts';
import { PlanAnswered } from './PlanAnswered.tsx';
import './plan.css';

/** The next shim: the plan where it can be made, else what is missing for it. */
export function PlanScreen({ build }: { readonly build: Build }) {
  const { plannable, input } = useAsked(build);
  const planning = usePlan(input);
  const { makeUp } = build;
  const trial = plannable.ok ? plannable.value.trials.at(-1) : undefined;
  if (!plannable.ok) return <Missing build={build} problem={plannable.problem} />;
  if (planning.problem !== undefined) return <Missing build={build} problem={planning.problem} />;
  if (makeUp === undefined || trial === undefined) return undefined;
  return (
    <PlanAnswered
      key={trial.id}
      build={{ ...build, makeUp } satisfies Build & { readonly makeUp: MakeUp }}
      plannable={plannable.value satisfies Plannable}
      trial={trial}
      planning={planning}
    />
  );
}

/** What the plan is asked: the build's own trials, begun from what earlier builds taught. */
function useAsked(build: Build) {
  const { on, builds, leftOut, ready, experience } = useEarlier(build);
  const learnt = useMemo(
    () => (on && builds !== undefined ? cutLearnt(build, builds, leftOut) : undefined),
    [on, build, builds, leftOut],
  );
  const plannable = useMemo(() => {
    const asked = plannableOf(learnt?.build ?? build);
    return asked.ok && learnt !== undefined
      ? { ...asked, value: { ...asked.value, notes: [learnt.note, ...asked.value.notes] } }
      : asked;
  }, [build, learnt]);
  const input = useMemo(() => {
    // The plan waits for what earlier builds taught: it would only be weighed twice.
    if (!plannable.ok || (on && !ready)) return undefined;
    return { ...plannable.value.input, ...(on && experience !== undefined ? { experience } : {}) };
  }, [plannable, on, ready, experience]);
  return { plannable, input };
}

/** Where the thing that is missing is entered. */
function placeFor(build: Build, kind: string): { readonly words: string; readonly route: Route } {
  const at = { build: build.id };
  const trial = build.assemblies.findLast(({ phase }) => phase === 'trial');
  if (kind === 'no-window') return { words: 'Enter the limits', route: { at: 'limits', ...at } };
  if (kind === 'no-pack' && trial !== undefined)
    return { words: 'Enter the shims', route: { at: 'check', ...at, assembly: trial.id, check: 'shims' } };
  return kind === 'no-trial' || kind === 'no-target'
    ? { words: 'Back to the stand', route: { at: 'build', ...at } }
    : { words: 'Describe the axle', route: { at: 'axle', ...at } };
}

function Missing({ build, problem }: { readonly build: Build; readonly problem: Problem }) {
  const { words, route } = placeFor(build, problem.kind);
  return (
    <>
      <Stage title="The next shim">
        <p className="plan__headline">{problem.sentence}</p>
        <p>The plan weighs every trial that has its backlash and both marks, and what can be read off the gears.</p>
      </Stage>
      <Words title="Not enough for a plan yet" next={{ words, run: () => go(route) }}>
        <p>{problem.remedy}</p>
      </Words>
    </>
  );
}
