import { useMemo } from 'react';
import { sleeveScene } from '../../../../shared/presentation/drawing/sleeveSteps.ts';
import type { SleeveAdvice } from '../../../../shared/measuring/torque/crushSleeve.ts';
import { unitShown } from '../../../../shared/basics/show.ts';
import { figureInside } from '../../../../shared/job/captures/torqueScale.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { BigNumber } from '../../../instruments/BigNumber.tsx';
import { Drawing } from '../../../instruments/Drawing.tsx';
import { Readout } from '../../../instruments/Readout.tsx';
import { useRoom } from '../../../instruments/size.ts';
import { Trace } from '../../../instruments/Trace.tsx';
import { useRun } from '../../../live/run.ts';
import { useSession } from '../../../stores/session.ts';
import { countingTorque, runningLevel } from '../torque/settings.ts';
import { type NutDraft, NutFields } from './NutFields.tsx';
import type { SleeveAim } from './steps.ts';
import '../check/measure.css';
import './sleeve.css';

interface SleevePictureProps {
  readonly gauge: Gauge;
  readonly aim: SleeveAim | undefined;
  readonly advice: SleeveAdvice;
  /** Steps that came before the last ones drawn. */
  readonly before: number;
  readonly nut: NutDraft;
  readonly onNut: (change: Partial<NutDraft>) => void;
}

/** The live torque, the trace on the band, and the steps climbing towards it. */
export function SleevePicture({ gauge, aim, advice, before, nut, onNut }: SleevePictureProps) {
  const units = useSession((session) => session.units);
  const run = useRun(({ run }) => run);
  const result = run?.result?.kind === 'torque' ? run.result : undefined;
  return (
    <div className="measure">
      <div className="measure__top">
        <Readout gauge={gauge} words={`Live torque in ${unitShown('torque', units).symbol}`} />
        <div className="measure__found">
          <BigNumber
            words="This step"
            value={result === undefined ? undefined : countingTorque(result)}
            dimension="torque"
            resolution={figureInside(gauge.resolution, gauge)}
          />
        </div>
      </div>
      <Trace
        gauge={gauge.id}
        quantity="Rotating torque"
        dimension="torque"
        marks={run?.marks ?? []}
        {...(aim === undefined ? {} : { band: aim.target })}
        span_s={30}
        level={runningLevel(result, units)}
      />
      <div className="sleeve__climb">
        <Climb aim={aim} advice={advice} before={before} />
        <NutFields nut={nut} onNut={onNut} />
      </div>
    </div>
  );
}

function Climb({ aim, advice, before }: Pick<SleevePictureProps, 'aim' | 'advice' | 'before'>) {
  const system = useSession((session) => session.units);
  const [room, size] = useRoom(16);
  const scene = useMemo(() => {
    if (size === undefined || aim === undefined) return undefined;
    const { next, last, stand } = advice;
    const going = (stand === 'below' || stand === 'small-steps') && !('none' in next);
    return sleeveScene({ steps: last, before, band: aim.target, system, size, ...(going ? { next } : {}) });
  }, [size, aim, advice, before, system]);
  return (
    <div className="instrument" ref={room}>
      {scene === undefined ? undefined : <Drawing scene={scene} />}
    </div>
  );
}
