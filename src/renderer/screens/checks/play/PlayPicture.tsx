import { insideOf } from '../../../../shared/basics/recorded.ts';
import { unitShown } from '../../../../shared/basics/show.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { BigNumber } from '../../../instruments/BigNumber.tsx';
import { Readout } from '../../../instruments/Readout.tsx';
import { Trace } from '../../../instruments/Trace.tsx';
import { useRun } from '../../../live/run.ts';
import { useSession } from '../../../stores/session.ts';
import { rocksNow } from '../backlash/found.ts';
import '../check/measure.css';
import './play.css';

/** The live reading, the play so far, and the trace with its pushes and pulls. */
export function PlayPicture({ gauge }: { readonly gauge: Gauge }) {
  const units = useSession((session) => session.units);
  const run = useRun(({ run }) => run);
  const now = rocksNow(run);
  const done = run?.stations.at(-1);
  const strokes = done?.rocks ?? now.rocks;
  return (
    <div className="measure play">
      <div className="measure__top">
        <Readout gauge={gauge} words={`Live reading in ${unitShown('length', units).symbol}`} />
        <div className="measure__found">
          <BigNumber
            words={strokes === 0 ? 'From push to pull' : `From push to pull, ${strokes} taken`}
            value={done?.value ?? now.mean}
            dimension="length"
            resolution={insideOf(gauge.resolution)}
          />
        </div>
      </div>
      <Trace gauge={gauge.id} quantity="Indicator" dimension="length" marks={run?.marks ?? []} span_s={12} />
    </div>
  );
}
