import type { Build, Measurement } from '../../../../shared/job/records/build.ts';
import type { CheckJudged } from '../../../../shared/job/checks/judge.ts';
import { settleSentence, standingWords } from '../../../../shared/presentation/words/standing.ts';
import { Button } from '../../../parts/Button.tsx';
import { Words } from '../../../parts/Words.tsx';
import { goOn } from './goOn.ts';

interface RecordedWordsProps {
  readonly build: Build;
  readonly title: string;
  readonly judged: CheckJudged;
  readonly measurement: Measurement;
  /** Said where there is no reason why the check stands as it does. */
  readonly otherwise: string;
  readonly onAnew: () => void;
}

/** Where a recorded reading stands, what would settle a close call, and the way on. */
export const RecordedWords = ({ build, title, judged, measurement, otherwise, onAnew }: RecordedWordsProps) => (
  <Words
    title={`${title}, ${standingWords(judged)}`}
    next={goOn(build)}
    others={<Button onPress={onAnew}>Take it anew</Button>}
  >
    <p>
      {judged.why ?? otherwise}
      {settleSentence(judged, measurement)}
    </p>
    <p className="quiet">Taking it anew keeps this one: the latest counts, the earlier ones stay in the notebook.</p>
  </Words>
);
