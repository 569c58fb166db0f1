import type { Measurement } from '../../../../shared/job/records/build.ts';
import type { TorqueResult } from '../../../../shared/job/records/measurement.ts';
import { endsOf } from '../../../../shared/job/records/specSheet.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { judgeCheck } from '../../../../shared/job/checks/judge.ts';
import { sheetFor } from '../../../../shared/job/checks/limitChanges.ts';
import { Bar, type BarView } from '../../../instruments/Bar.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useSession } from '../../../stores/session.ts';
import { orReason } from '../../../../shared/presentation/words/results.ts';
import { shapeOf } from '../../../../shared/presentation/words/standing.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { RecordedVerdict } from '../check/RecordedVerdict.tsx';
import { HowTaken } from '../check/HowTaken.tsx';
import { RecordedWords } from '../check/RecordedWords.tsx';
import { countingTorque, torqueLimit } from './settings.ts';
import { torqueWords } from './words.ts';
import '../backlash/stations.css';
import './torque.css';

interface TorqueRecordedProps extends CheckProps {
  readonly measurement: Measurement;
  readonly result: TorqueResult;
  readonly onAnew: () => void;
}

/** A rotating torque as it was recorded, against its window. */
export function TorqueRecorded(props: TorqueRecordedProps) {
  const { build, assembly, check, measurement, result, onAnew } = props;
  const units = useSession((session) => session.units);
  const judged = judgeCheck(check, measurement, assembly, sheetFor(build, measurement));
  const { basis, seal, bearings } = result.basis;
  return (
    <>
      <Stage fill title={check.title}>
        <div className="torque">
          <RecordedVerdict judged={judged} beside={`${basis}, seal ${seal}, ${bearings} bearings`}>
            {orReason(countingTorque(result), 'torque', units)}
          </RecordedVerdict>
          <p>{torqueWords(result, units)}</p>
          <HowTaken measurement={measurement} />
          <Bar view={barView(props)} />
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

function barView({ build, assembly, check, measurement, result }: TorqueRecordedProps): BarView | undefined {
  const sheet = sheetFor(build, measurement);
  const limit = torqueLimit(sheet, check.limits[0], result.basis);
  const value = countingTorque(result);
  const shape = shapeOf(judgeCheck(check, measurement, assembly, sheet));
  if (limit === undefined || isNone(value) || shape === 'recorded') return undefined;
  return {
    quantity: check.title,
    dimension: 'torque',
    value,
    limits: endsOf(limit),
    state: shape,
    ...(isNone(result.U95_Nm) ? {} : { U95: result.U95_Nm }),
  };
}
