import { useState } from 'react';
import type { LooseMeasurement } from '../../../../shared/contract/builds.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { holdRun, useRun } from '../../../live/run.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { useLiveGauges } from '../../../stores/gauges.ts';
import { useSession } from '../../../stores/session.ts';
import { resultBrief } from '../../../../shared/presentation/words/results.ts';
import { BacklashPicture } from '../../checks/backlash/BacklashPicture.tsx';
import { GaugePick } from '../../checks/check/GaugePick.tsx';
import { gaugeNext, NoGauge } from '../../checks/check/NoGauge.tsx';
import { SimulatedHand } from '../../checks/check/SimulatedHand.tsx';
import { type Measuring, useMeasuring } from '../../checks/check/useMeasuring.ts';
import { PlayPicture } from '../../checks/play/PlayPicture.tsx';
import { RunoutPicture } from '../../checks/runout/RunoutPicture.tsx';
import { TorquePicture } from '../../checks/torque/TorquePicture.tsx';
import { Kept } from './Kept.tsx';
import { firstTry, handFor, looseSettings, tellFirst, type What, whatOptions, whatSo } from './what.ts';
import '../../checks/check/measure.css';
import './justMeasure.css';

/** No build, no limits: plug in, rock or turn, read the number. What is worth keeping can go into a build later. */
export function JustMeasureScreen({ gauge: begin }: { readonly gauge: string | undefined }) {
  const seen = useLiveGauges();
  const [chosen, setWhat] = useState<What>();
  const [round, setRound] = useState(0);
  const what = chosen ?? firstTry(seen, begin);
  const measuring = useMeasuring(looseSettings[what], undefined, { round, begin });
  const { gauge, all, choose, live } = measuring;
  return (
    <>
      <Stage
        fill
        title="Just measure"
        aside={
          <div className="measure__set-up">
            {live ? <SimulatedHand action={handFor[what]} /> : undefined}
            <GaugePick gauge={gauge} all={all} choose={choose} />
            <Choice bare label="What is measured" value={what} onChange={setWhat} options={whatOptions} />
          </div>
        }
      >
        {gauge === undefined || !live ? (
          <NoGauge kind={what === 'torque' ? 'torque' : 'indicator'} gauge={gauge} />
        ) : (
          <Picture what={what} gauge={gauge} />
        )}
      </Stage>
      <JustMeasureWords what={what} measuring={measuring} onKept={() => setRound(round + 1)} />
    </>
  );
}

function Picture({ what, gauge }: { readonly what: What; readonly gauge: Gauge }) {
  if (what === 'backlash') return <BacklashPicture gauge={gauge} sheet={undefined} teeth={undefined} />;
  if (what === 'play') return <PlayPicture gauge={gauge} />;
  if (what === 'runout') return <RunoutPicture gauge={gauge} check={undefined} build={undefined} />;
  return <TorquePicture gauge={gauge} band={undefined} />;
}

interface JustMeasureWordsProps {
  readonly what: What;
  readonly measuring: Measuring;
  readonly onKept: () => void;
}

function JustMeasureWords({ what, measuring, onKept }: JustMeasureWordsProps) {
  const units = useSession((session) => session.units);
  const run = useRun(({ run }) => run);
  const [kept, setKept] = useState<LooseMeasurement>();
  const { gauge, live, next, again } = measuring;
  const keep = async (): Promise<void> => {
    const taken = holdRun();
    const loose = taken === undefined ? undefined : await ask('measurements.keep-loose', taken);
    if (loose !== undefined) setKept(loose);
    onKept();
  };
  const so = whatSo(run, units);
  const action =
    so === undefined ? { words: 'Next place', run: next } : { words: 'Keep this number', run: () => void keep() };
  return (
    <Words
      title={so ?? tellFirst[what]}
      next={live ? action : gaugeNext(gauge)}
      others={
        live ? (
          <Button onPress={again} keyHint="PgUp">
            Again
          </Button>
        ) : undefined
      }
    >
      {kept === undefined ? undefined : (
        <p>
          Kept: {resultBrief(kept.result, units)}, {kept.gauge.label}. It can go into a build below.
        </p>
      )}
      <Kept fresh={kept} />
    </Words>
  );
}
