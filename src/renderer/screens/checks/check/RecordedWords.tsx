import { type Build, currentAssembly, type Measurement } from '../../../../shared/job/records/build.ts';
import type { CheckId } from '../../../../shared/job/records/checkIds.ts';
import { checkOf } from '../../../../shared/job/checks/checks.ts';
import { nextStep } from '../../../../shared/job/checks/readiness.ts';
import type { CheckJudged } from '../../../../shared/job/checks/judge.ts';
import { settleSentence, standingWords } from '../../../../shared/presentation/words/standing.ts';
import { Button } from '../../../parts/Button.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { go } from '../../../stores/route.ts';
import { goOn } from './goOn.ts';

interface RecordedWordsProps {
  readonly build: Build;
  readonly title: string;
  readonly judged: CheckJudged;
  readonly measurement: Measurement;
  /** Said where there is no reason why the check stands as it does; how it is taken is of use only while it has no number. */
  readonly otherwise: string;
  readonly onAnew: () => void;
}

/** A reading that gave no number leaves its own check as the next step: then it is this one that is taken anew. */
function nextAfter(build: Build, { check }: Measurement, onAnew: () => void): NextAction {
  const next = nextStep(build);
  const isThis = next.do === 'check' && next.check.id === check && next.assembly === currentAssembly(build)?.id;
  return isThis ? { words: 'Take it anew', run: onAnew } : goOn(build);
}

/** Straight to the line of the limits that is empty; the reading is held against it afterwards. */
function EnterLimit({ build, check }: { readonly build: Build; readonly check: CheckId }) {
  const line = checkOf(check).limits[0];
  return line === undefined ? undefined : (
    <Button onPress={() => go({ at: 'limits', build: build.id, line })}>Enter its limit</Button>
  );
}

/** Where a recorded reading stands, what would settle a close call, and the way on. */
export const RecordedWords = ({ build, title, judged, measurement, otherwise, onAnew }: RecordedWordsProps) => (
  <Words
    title={`${title}, ${standingWords(judged)}`}
    next={nextAfter(build, measurement, onAnew)}
    others={
      <>
        <Button onPress={onAnew}>Take it anew</Button>
        {judged.standing === 'no-limit' ? <EnterLimit build={build} check={measurement.check} /> : undefined}
      </>
    }
  >
    <p>
      {judged.why ?? otherwise}
      {settleSentence(judged, measurement)}
    </p>
    <p className="quiet">Taking it anew keeps this one: the latest counts, the earlier ones stay in the notebook.</p>
  </Words>
);
