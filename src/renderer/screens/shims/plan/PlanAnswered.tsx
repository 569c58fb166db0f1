import { useState } from 'react';
import { type Assembly, type Build, waitingSwap } from '../../../../shared/job/records/build.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import type { PlanAnswer } from '../../../../shared/axle/plan/answer.ts';
import type { Place } from '../../../../shared/axle/plan/sight.ts';
import type { Plannable } from '../../../../shared/job/planning/plannable.ts';
import { makeSwap } from '../../../../shared/job/swap/makeSwap.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { ToeChoice } from '../../../parts/ToeChoice.tsx';
import type { Planning } from '../../../planning/usePlan.ts';
import { useSession } from '../../../stores/session.ts';
import { PlanPicture } from './PlanPicture.tsx';
import { PlanReasons } from './PlanReasons.tsx';
import { PlanWords } from './PlanWords.tsx';
import { cardLine } from './words.ts';

interface PlanAnsweredProps {
  readonly build: Build & { readonly makeUp: MakeUp };
  readonly plannable: Plannable;
  /** The trial the plan starts from. */
  readonly trial: Assembly;
  readonly planning: Planning;
}

/** The plan's answer in words, the marks it expects over those that were seen, and a hand to move both gears. */
export function PlanAnswered(props: PlanAnsweredProps) {
  const { build, plannable, trial, planning } = props;
  const { answer, foreseen, look } = planning;
  const units = useSession((session) => session.units);
  const here = hereIn(plannable);
  const [own, setOwn] = useState<Place>();
  const move = own ?? moveOf(answer, here);
  const at = { pinionOut: here.pinionOut + move.pinionOut, ringAway: here.ringAway + move.ringAway };
  // What is expected belongs to one place: while the worker is still on its way there is no card.
  const expected = foreseen !== undefined && samePlace(foreseen.place, at) ? foreseen.expected : undefined;
  const by = own === undefined ? 'plan' : 'own';
  const swap = expected === undefined ? undefined : makeSwap(build.makeUp, trial, { by, move, expected });
  const moveTo = (to: Place): void => {
    setOwn(to);
    look({ pinionOut: here.pinionOut + to.pinionOut, ringAway: here.ringAway + to.ringAway });
  };
  const backToPlan = (): void => {
    moveTo(moveOf(answer, here));
    setOwn(undefined);
  };
  const card = swap?.ok === true ? swap.value : undefined;
  return (
    <>
      <Stage title="The next shim" aside={<ToeChoice />}>
        <div className="plan">
          <p className="plan__headline" aria-live="polite">
            {headline(answer, own, cardLine(card, move, units))}
          </p>
          <PlanPicture makeUp={build.makeUp} input={plannable.input} foreseen={foreseen} move={move} onMove={moveTo} />
          <PlanReasons answer={answer} notes={plannable.notes} foreseen={foreseen} />
        </div>
      </Stage>
      <PlanWords
        build={build}
        trial={trial}
        answer={answer}
        foreseen={foreseen}
        swap={swap}
        moved={own !== undefined}
        stays={move.pinionOut === 0 && move.ringAway === 0}
        waiting={waitingSwap(build)}
        onBack={backToPlan}
        onStand={() => moveTo({ pinionOut: 0, ringAway: 0 })}
      />
    </>
  );
}

const hereIn = ({ input }: Plannable): Place => {
  const last = input.trials.at(-1);
  return { pinionOut: last?.pinionOut_mm ?? 0, ringAway: last?.ringAway_mm ?? 0 };
};

/** The plan's movement from where the trial stands; none before the plan has come. */
function moveOf(answer: PlanAnswer | undefined, here: Place): Place {
  if (answer === undefined) return { pinionOut: 0, ringAway: 0 };
  const tidy = (value: number): number => Math.round(value * 1e5) / 1e5;
  return {
    pinionOut: tidy(answer.pinionOut_mm - here.pinionOut),
    ringAway: tidy(answer.ringAway_mm - here.ringAway),
  };
}

const samePlace = (a: Place, b: Place): boolean =>
  Math.abs(a.pinionOut - b.pinionOut) < 1e-4 && Math.abs(a.ringAway - b.ringAway) < 1e-4;

/** What is recommended, in the words of the stand. */
function headline(answer: PlanAnswer | undefined, own: Place | undefined, card: string): string {
  if (answer === undefined) return 'The trials are being weighed …';
  if (own !== undefined) return `Your own movement: ${card}`;
  if (answer.decision === 'leave') return 'Leave it: the mark is right as far as readings can tell';
  if (answer.decision === 'suspect') return 'Suspect the set or the housing, not the shims';
  if (answer.decision === 'check') return 'The trials contradict each other: look before another shim';
  if (answer.decision === 'repaint') return 'The mark tells nothing yet: paint it again';
  return card;
}
