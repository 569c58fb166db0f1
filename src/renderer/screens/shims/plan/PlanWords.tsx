import { type Assembly, assemblyName, type Build, latest, type Swap } from '../../../../shared/job/records/build.ts';
import type { SwapPlanned } from '../../../../shared/job/records/swap.ts';
import { isNone, type Result } from '../../../../shared/basics/result.ts';
import type { PlanAnswer } from '../../../../shared/axle/plan/answer.ts';
import { inHundred } from '../../../../shared/axle/plan/words.ts';
import type { Foreseen } from '../../../../shared/job/planning/foresee.ts';
import { Button } from '../../../parts/Button.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { useNotebook, writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';

interface PlanWordsProps {
  readonly build: Build;
  readonly trial: Assembly;
  readonly answer: PlanAnswer | undefined;
  readonly foreseen: Foreseen | undefined;
  readonly swap: Result<SwapPlanned> | undefined;
  /** A hand has moved something away from the plan. */
  readonly moved: boolean;
  /** Nothing would change. */
  readonly stays: boolean;
  readonly waiting: Swap | undefined;
  readonly onBack: () => void;
  readonly onStand: () => void;
}

/** What the plan comes to, how sure it is, and the one thing to do about it. */
export function PlanWords(props: PlanWordsProps) {
  const { build, trial, answer, foreseen, swap, moved, waiting, onBack, onStand, stays } = props;
  const refused = swap?.ok === false && !stays ? swap.problem : undefined;
  return (
    <Words
      title={refused === undefined ? titleOf(props) : refused.sentence}
      next={nextOf(props)}
      others={
        <>
          {moved ? <Button onPress={onBack}>Back to the plan</Button> : undefined}
          {stays || answer === undefined ? undefined : <Button onPress={onStand}>As it stands</Button>}
          {!moved && answer?.decision === 'check' ? (
            <Button onPress={() => void writeDeed({ kind: 'looked-at', assembly: trial.id })}>
              Looked: it is as told
            </Button>
          ) : undefined}
          <Button onPress={() => go({ at: 'experience', build: build.id })}>Earlier builds</Button>
          {waiting === undefined ? undefined : <Another {...props} waiting={waiting} />}
        </>
      }
    >
      {refused === undefined ? (
        <p>{said(answer, foreseen, moved)} The maker’s manual for the axle and you decide.</p>
      ) : (
        <p>{refused.remedy}</p>
      )}
    </Words>
  );
}

const titles = {
  change: 'A change is worth it',
  leave: 'No change would better it by more than readings can tell',
  suspect: 'No shim in the window is likely to help',
  check: 'No shim before this is looked at',
  repaint: 'No shim before the mark tells something',
} as const;

const titleOf = ({ answer, moved }: PlanWordsProps): string => {
  if (answer === undefined) return 'Weighing the trials';
  return moved ? 'Moved by hand' : titles[answer.decision];
};

/** One chance for one thing: at the plan's own place it is the plan's. Where nothing is planned there is none. */
function said(answer: PlanAnswer | undefined, foreseen: Foreseen | undefined, moved: boolean): string {
  if (foreseen === undefined || answer === undefined) return 'It takes a moment.';
  if (!moved) return isNone(answer.chance) ? `Nothing is promised: ${answer.chance.none}.` : chanceWords(answer.chance);
  return chanceWords(foreseen.chance);
}

/** Chances are told in fives, because they are known no better. */
const chanceWords = (chance: number): string =>
  `About ${inHundred(chance)} axles with these readings would be right there.`;

function nextOf(props: PlanWordsProps): NextAction {
  const { build, trial, answer, swap, moved, stays, waiting } = props;
  const make = waiting === undefined ? 'Make the swap card' : 'Make a new swap card';
  if (waiting !== undefined && !moved) return openCard(build, waiting);
  if (answer === undefined) return { words: make, run: () => undefined, disabled: true };
  if (swap?.ok === false && !stays) {
    return {
      words: 'Enter the shims by place',
      run: () => go({ at: 'check', build: build.id, assembly: trial.id, check: 'shims' }),
    };
  }
  if (!moved && answer.decision === 'leave') return { words: 'Accept the mark', run: () => void accept(build, trial) };
  if (!moved && answer.decision === 'suspect') {
    return { words: 'Write it in the notes', run: () => void note(build, trial, answer) };
  }
  if (!moved && answer.decision === 'check')
    return { words: 'Back to the stand', run: () => go({ at: 'build', build: build.id }) };
  if (!moved && answer.decision === 'repaint') {
    return {
      words: 'Paint it again',
      run: () => go({ at: 'check', build: build.id, assembly: trial.id, check: 'mark' }),
    };
  }
  return { words: make, run: () => void makeCard(build, trial, swap), disabled: stays };
}

const openCard = (build: Build, waiting: Swap): NextAction => ({
  words: 'Go by the swap card',
  run: () => go({ at: 'swap', build: build.id, swap: waiting.id }),
});

/** Beside the card that waits another can be made; where something was moved by hand, the one that waits stays at hand. */
function Another({ build, trial, swap, moved, stays, waiting }: PlanWordsProps & { readonly waiting: Swap }) {
  if (moved) return <Button onPress={openCard(build, waiting).run}>Go by the card that is there</Button>;
  return (
    <Button onPress={() => void makeCard(build, trial, swap)} disabled={stays || swap?.ok !== true}>
      Make a new swap card
    </Button>
  );
}

async function makeCard(build: Build, trial: Assembly, swap: Result<SwapPlanned> | undefined): Promise<void> {
  if (swap?.ok !== true) return;
  if (!(await writeDeed({ kind: 'swap-planned', assembly: trial.id, swap: swap.value }))) return;
  const written = useNotebook.getState().build?.swaps.at(-1);
  if (written !== undefined) go({ at: 'swap', build: build.id, swap: written.id });
}

/** The mark as it was read, with the judgement that it may stay. */
async function accept(build: Build, trial: Assembly): Promise<void> {
  const mark = latest(trial, 'mark');
  if (mark?.result.kind !== 'mark') return;
  const { how, result } = mark;
  const accepted = { ...result, judgement: 'accepted' as const };
  if (await writeDeed({ kind: 'measured', assembly: trial.id, check: 'mark', how, result: accepted })) {
    go({ at: 'build', build: build.id });
  }
}

async function note(build: Build, trial: Assembly, answer: PlanAnswer): Promise<void> {
  const text = `${assemblyName(trial)}: the plan suspects the set or the housing. ${answer.reasons.join(' ')}`;
  if (await writeDeed({ kind: 'noted', topic: 'note', text })) go({ at: 'notes', build: build.id });
}
