import { insideOf } from '../../../../shared/basics/recorded.ts';
import { unitShown } from '../../../../shared/basics/show.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import type { CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { limitFor } from '../../../../shared/presentation/drawing/stations.ts';
import { limitWords } from '../../../../shared/presentation/words/limits.ts';
import { BigNumber } from '../../../instruments/BigNumber.tsx';
import { Readout } from '../../../instruments/Readout.tsx';
import { Trace } from '../../../instruments/Trace.tsx';
import { type Run, useRun } from '../../../live/run.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { GaugePick } from '../check/GaugePick.tsx';
import { NoGauge } from '../check/NoGauge.tsx';
import { useMeasuring } from '../check/useMeasuring.ts';
import { useRecordWhenComplete } from '../check/useRecordWhenComplete.ts';
import '../check/measure.css';
import './play.css';

const settings: CaptureSettingsOf<'spread'> = { kind: 'spread' };

interface SpreadLiveProps extends CheckProps {
  readonly onByHand: () => void;
}

/** How far the case spreads under its preload: a rest without it, a rest under it, a press at each. */
export function SpreadLive(props: SpreadLiveProps) {
  const { build, check, onByHand } = props;
  const units = useSession((session) => session.units);
  const measuring = useMeasuring(settings, build.specSheet);
  const { gauge, all, choose, live, next, again } = measuring;
  const isBegun = useRun(({ run }) => restsOf(run) > 0);
  useRecordWhenComplete(props);
  const limit = limitFor(build.specSheet, 'case-preload');
  return (
    <>
      <Stage fill title={check.title} aside={<GaugePick gauge={gauge} all={all} choose={choose} />}>
        {gauge === undefined || !live ? <NoGauge kind="indicator" gauge={gauge} /> : <SpreadPicture gauge={gauge} />}
      </Stage>
      <Words
        title={isBegun ? 'Now preload it' : 'The case without preload'}
        next={
          live
            ? { words: isBegun ? 'It is preloaded' : 'It stands without preload', run: next }
            : { words: 'Enter it by hand', run: onByHand }
        }
        others={
          <>
            {live && isBegun ? (
              <Button onPress={again} keyHint="PgUp">
                Again
              </Button>
            ) : undefined}
            {live ? <Button onPress={onByHand}>Enter it by hand</Button> : undefined}
          </>
        }
      >
        <p>
          {isBegun
            ? 'Leave the base where it is. Fit the preload, caps at full torque, and press when it stands.'
            : 'Base on one bearing bore of the housing, stem on the other, in line with the case. Bearings at zero play, not preloaded; press when it stands.'}
        </p>
        <p className="quiet">
          {limit === undefined ? 'No limit is entered for it.' : `Limit ${limitWords(limit, units)}.`}
        </p>
      </Words>
    </>
  );
}

/** How many of the two rests are there. */
const restsOf = (run: Run | undefined): number => {
  const last = run?.found.findLast(({ kind }) => kind === 'spread-rest' || kind === 'again');
  return last?.kind === 'spread-rest' ? last.number : 0;
};

function SpreadPicture({ gauge }: { readonly gauge: Gauge }) {
  const units = useSession((session) => session.units);
  const run = useRun(({ run }) => run);
  const value = run?.result?.kind === 'play' && restsOf(run) === 2 ? run.result.value_mm : undefined;
  return (
    <div className="measure play">
      <div className="measure__top">
        <Readout gauge={gauge} words={`Live reading in ${unitShown('length', units).symbol}`} />
        <div className="measure__found">
          <BigNumber words="Spread" value={value} dimension="length" resolution={insideOf(gauge.resolution)} />
        </div>
      </div>
      <Trace gauge={gauge.id} quantity="Indicator" dimension="length" marks={run?.marks ?? []} span_s={12} />
    </div>
  );
}
