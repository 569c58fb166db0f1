import type { Measurement } from '../../../../shared/job/records/build.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { showText } from '../../../../shared/basics/show.ts';
import { judgeCheck } from '../../../../shared/job/checks/judge.ts';
import { resultBrief } from '../../../../shared/presentation/words/results.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { HowTaken } from '../check/HowTaken.tsx';
import { RecordedVerdict } from '../check/RecordedVerdict.tsx';
import { RecordedWords } from '../check/RecordedWords.tsx';
import '../backlash/stations.css';

interface PlayRecordedProps extends CheckProps {
  readonly measurement: Measurement;
  readonly onAnew: () => void;
}

/** A play as it was recorded, by indicator or by hand. */
export function PlayRecorded({ build, assembly, check, measurement, onAnew }: PlayRecordedProps) {
  const units = useSession((session) => session.units);
  const judged = judgeCheck(check, measurement, assembly, build.specSheet);
  const { result } = measurement;
  const doubt = result.kind === 'play' && !isNone(result.value_mm) ? showText(result.U95_mm, 'length', units) : '';
  return (
    <>
      <Stage title={check.title}>
        <div className="stations">
          <RecordedVerdict judged={judged} beside={doubt === '' ? undefined : `± ${doubt}`}>
            {resultBrief(result, units)}
          </RecordedVerdict>
          {result.kind === 'play' ? (
            <p>
              {wayOf(measurement, result.strokes)} {result.why}
            </p>
          ) : undefined}
          <HowTaken measurement={measurement} />
        </div>
      </Stage>
      <RecordedWords
        build={build}
        title={check.title}
        judged={judged}
        measurement={measurement}
        otherwise={judged.standing === 'not-measured' ? check.how : ''}
        onAnew={onAnew}
      />
    </>
  );
}

const wayOf = ({ how }: Measurement, strokes: number): string =>
  how.kind === 'streamed' && how.settings.kind === 'spread'
    ? 'From the rest without preload to the rest under it.'
    : `From push to pull, ${strokes} strokes.`;
