import { useState } from 'react';
import type { LooseMeasurement } from '../../../shared/contract/builds.ts';
import { type Run } from '../../live/run.ts';
import { holdRun } from '../../live/run.ts';
import { Button } from '../../parts/Button.tsx';
import { Choice } from '../../parts/Choice.tsx';
import { Stage } from '../../parts/Stage.tsx';
import { Words } from '../../parts/Words.tsx';
import { ask } from '../../stores/ask.ts';
import { useSession } from '../../stores/session.ts';
import { resultBrief } from '../../words/results.ts';
import { BacklashPicture } from '../backlash/BacklashPicture.tsx';
import { GaugePick } from '../check/GaugePick.tsx';
import { NoGauge } from '../check/NoGauge.tsx';
import { SimulatedHand } from '../check/SimulatedHand.tsx';
import { useMeasuring } from '../check/useMeasuring.ts';
import { RunoutPicture } from '../runout/RunoutPicture.tsx';
import { TorquePicture } from '../torque/TorquePicture.tsx';
import { Kept } from './Kept.tsx';
import { handFor, looseSettings, type What, whatOptions, whatSo } from './what.ts';
import '../check/measure.css';
import './just-measure.css';

/** No build, no limits: plug in, rock or turn, read the number. What is worth keeping can go into a build later. */
export function JustMeasureScreen() {
  const units = useSession((session) => session.units);
  const [what, setWhat] = useState<What>('backlash');
  const [round, setRound] = useState(0);
  const [kept, setKept] = useState<LooseMeasurement>();
  const settings = looseSettings[what];
  const { gauge, all, choose, live, run, next, again } = useMeasuring(settings, undefined);
  const keep = async (now: Run): Promise<void> => {
    holdRun();
    if (now.stretch === undefined) return;
    const loose = await ask('measurements.keep-loose', { stretch: now.stretch, settings: now.settings });
    if (loose !== undefined) setKept(loose);
    setRound(round + 1);
  };
  const so = whatSo(run, units);
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
          <NoGauge kind={what === 'torque' ? 'torque' : 'indicator'} />
        ) : what === 'backlash' ? (
          <BacklashPicture gauge={gauge} run={run} sheet={undefined} teeth={undefined} />
        ) : what === 'runout' ? (
          <RunoutPicture gauge={gauge} run={run} check={undefined} build={undefined} />
        ) : (
          <TorquePicture gauge={gauge} run={run} band={undefined} />
        )}
      </Stage>
      <Words
        title={so ?? { backlash: 'Rock it there and back', runout: 'Turn it once', torque: 'Turn steadily' }[what]}
        next={
          live
            ? so === undefined || run === undefined
              ? { words: 'Next place', run: next }
              : { words: 'Keep this number', run: () => void keep(run) }
            : undefined
        }
        others={
          live ? (
            <>
              <Button onPress={again} keyHint="PgUp">
                Again
              </Button>
            </>
          ) : undefined
        }
      >
        {kept === undefined ? undefined : <p>Kept: {resultBrief(kept.result, units)}. It can go into a build below.</p>}
        <Kept fresh={kept} />
      </Words>
    </>
  );
}
