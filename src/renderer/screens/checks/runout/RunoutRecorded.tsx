import { useMemo } from 'react';
import type { Measurement } from '../../../../shared/job/records/build.ts';
import type { RunoutResult } from '../../../../shared/job/records/measurement.ts';
import { judgeCheck } from '../../../../shared/job/checks/judge.ts';
import { sheetFor } from '../../../../shared/job/checks/limitChanges.ts';
import { hasShape } from '../../../../shared/presentation/drawing/ringInput.ts';
import { Bar } from '../../../instruments/Bar.tsx';
import { Ring } from '../../../instruments/Ring.tsx';
import { Unrolled } from '../../../instruments/Unrolled.tsx';
import { useScrolls } from '../../../parts/scrolls.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { useSession } from '../../../stores/session.ts';
import { orReason } from '../../../../shared/presentation/words/results.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { RecordedVerdict } from '../check/RecordedVerdict.tsx';
import { HowTaken } from '../check/HowTaken.tsx';
import { RecordedWords } from '../check/RecordedWords.tsx';
import { ReclockPanel } from '../together/ReclockPanel.tsx';
import { TogetherPanel } from '../together/TogetherPanel.tsx';
import { runoutBar, runoutView } from './RunoutPicture.tsx';
import { runoutWords } from './RunoutTelling.tsx';
import '../backlash/stations.css';
import '../check/measure.css';

interface RunoutRecordedProps extends CheckProps {
  readonly measurement: Measurement;
  readonly result: RunoutResult;
  readonly onAnew: () => void;
}

/** A runout as it was recorded. */
export function RunoutRecorded({ build, assembly, check, measurement, result, onAnew }: RunoutRecordedProps) {
  const units = useSession((session) => session.units);
  const [list, scrolls] = useScrolls();
  const judged = judgeCheck(check, measurement, assembly, sheetFor(build, measurement));
  const view = useMemo(() => runoutView(result, check, build), [result, check, build]);
  return (
    <>
      <Stage fill title={check.title}>
        <div className="measure measure--recorded">
          <div className="stations" ref={list} {...(scrolls ? { tabIndex: 0 } : {})}>
            <RecordedVerdict judged={judged}>{orReason(result.tir_mm, 'length', units)}</RecordedVerdict>
            <p>{runoutWords(result, units)}</p>
            <HowTaken measurement={measurement} />
            <ReclockPanel build={build} assembly={assembly} />
            {check.id === 'ring-gear-runout' ? <TogetherPanel build={build} assembly={assembly} /> : undefined}
          </div>
          {view.runout === undefined || hasShape(view.runout) ? (
            <>
              <Ring view={view} />
              <Unrolled view={view} />
            </>
          ) : (
            <Bar view={runoutBar(result, check, build, judged)} />
          )}
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
