import type { Measurement } from '../../../../shared/job/records/build.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { showText } from '../../../../shared/basics/show.ts';
import { judgeCheck } from '../../../../shared/job/checks/judge.ts';
import { sheetFor } from '../../../../shared/job/checks/limitChanges.ts';
import { endsOf } from '../../../../shared/job/records/specSheet.ts';
import { shapeOf } from '../../../../shared/presentation/words/standing.ts';
import { Bar, type BarView } from '../../../instruments/Bar.tsx';
import { resultBrief } from '../../../../shared/presentation/words/results.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { HowTaken } from '../check/HowTaken.tsx';
import { RecordedVerdict } from '../check/RecordedVerdict.tsx';
import { RecordedWords } from '../check/RecordedWords.tsx';
import { Looked } from '../typed/Looked.tsx';
import '../backlash/stations.css';
import '../torque/torque.css';

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
      <Stage fill title={check.title}>
        <div className="torque">
          <RecordedVerdict judged={judged} beside={doubt === '' ? undefined : `± ${doubt}`}>
            {resultBrief(result, units)}
          </RecordedVerdict>
          {result.kind === 'play' ? (
            <p>
              {wayOf(measurement, result.strokes)} {result.why}
            </p>
          ) : undefined}
          <HowTaken measurement={measurement} />
          <Against {...{ build, assembly, check, measurement }} />
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

/** The play against its limit; how it was taken where no limit was entered. */
function Against({ build, assembly, check, measurement }: Omit<PlayRecordedProps, 'onAnew'>) {
  const view = barView({ build, assembly, check, measurement });
  return view === undefined ? <Looked check={check} /> : <Bar view={view} />;
}

function barView({ build, assembly, check, measurement }: Omit<PlayRecordedProps, 'onAnew'>): BarView | undefined {
  const sheet = sheetFor(build, measurement);
  const limit = sheet?.limits.find(({ quantity }) => quantity === check.limits[0]);
  const { result } = measurement;
  const shape = shapeOf(judgeCheck(check, measurement, assembly, sheet));
  if (limit === undefined || result.kind !== 'play' || isNone(result.value_mm) || shape === 'recorded')
    return undefined;
  const { value_mm: value, U95_mm } = result;
  return {
    quantity: check.title,
    dimension: 'length',
    value,
    limits: endsOf(limit),
    state: shape,
    ...(isNone(U95_mm) ? {} : { U95: U95_mm }),
  };
}

const wayOf = ({ how }: Measurement, strokes: number): string =>
  how.kind === 'streamed' && how.settings.kind === 'spread'
    ? 'From the rest without preload to the rest under it.'
    : `From push to pull, ${strokes} strokes.`;
