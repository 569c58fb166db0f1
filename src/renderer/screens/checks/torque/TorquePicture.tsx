import { unitShown } from '../../../../shared/basics/show.ts';
import { figureInside } from '../../../../shared/job/captures/torqueScale.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import type { Limits } from '../../../../shared/presentation/drawing/scale.ts';
import { BigNumber } from '../../../instruments/BigNumber.tsx';
import { Readout } from '../../../instruments/Readout.tsx';
import { Trace } from '../../../instruments/Trace.tsx';
import { useRun } from '../../../live/run.ts';
import { useSession } from '../../../stores/session.ts';
import { runningLevel } from './settings.ts';
import '../check/measure.css';
import './torque.css';

interface TorquePictureProps {
  readonly gauge: Gauge;
  readonly band: Limits | undefined;
}

/** The live torque, the running mean and the breakaway, and the trace on the band of the limit. */
export function TorquePicture({ gauge, band }: TorquePictureProps) {
  const run = useRun(({ run }) => run);
  const units = useSession((session) => session.units);
  const result = run?.result?.kind === 'torque' ? run.result : undefined;
  const resolution = figureInside(gauge.resolution, gauge);
  return (
    <div className="torque">
      <div className="measure__top">
        <Readout gauge={gauge} words={`Live torque in ${unitShown('torque', units).symbol}`} />
        <div className="measure__found torque__found">
          <BigNumber words="Running" value={result?.running_Nm} dimension="torque" resolution={resolution} />
          <BigNumber words="Breakaway" value={result?.breakaway_Nm} dimension="torque" resolution={resolution} />
        </div>
      </div>
      <Trace
        gauge={gauge.id}
        quantity="Rotating torque"
        dimension="torque"
        marks={run?.marks ?? []}
        band={band}
        span_s={30}
        level={runningLevel(result, units)}
      />
    </div>
  );
}
