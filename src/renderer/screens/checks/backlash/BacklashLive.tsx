import type { CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { useState } from 'react';
import { type Begun, type Run, runSoFar, useRun } from '../../../live/run.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { limitFor } from '../../../../shared/presentation/drawing/stations.ts';
import { basisWords } from '../../../../shared/job/checks/judge.ts';
import type { CheckProps } from '../check/checkProps.ts';
import type { LiveProps } from '../check/liveProps.ts';
import { GaugePick } from '../check/GaugePick.tsx';
import { NoGauge, waysToRead } from '../check/NoGauge.tsx';
import { record } from '../check/record.ts';
import { SimulatedHand } from '../check/SimulatedHand.tsx';
import { type Measuring, useMeasuring } from '../check/useMeasuring.ts';
import { forgetUnfinished, useNoted } from '../check/useUnfinished.ts';
import { useRecordWhenComplete } from '../check/useRecordWhenComplete.ts';
import { ConvertedLimits } from '../stem/ConvertedLimits.tsx';
import { BacklashPicture } from './BacklashPicture.tsx';
import { BacklashSetUp } from './BacklashSetUp.tsx';
import { BacklashTelling } from './BacklashTelling.tsx';
import { isFeltAlike, useBacklashSettings } from './useBacklashSettings.ts';
import '../check/measure.css';

/** Backlash hands free: rock, and the bench finds the rests, counts the rocks, goes on, and records when all are there. */
export function BacklashLive({ found, onByHand, ...props }: LiveProps) {
  const { build, check } = props;
  const [settings, setSettings] = useBacklashSettings(build, found?.settings);
  const [begun, setBegun] = useState<Begun | undefined>(found);
  const [round, setRound] = useState(0);
  const measuring = useMeasuring(settings, build.specSheet, { round, begun });
  const { gauge, all, choose, live } = measuring;
  useRecordWhenComplete(props);
  useNoted(props);
  const change = (changed: CaptureSettingsOf<'backlash'>): void => {
    setBegun(isFeltAlike(settings, changed) ? runSoFar() : undefined);
    setSettings(changed);
  };
  const beginAgain = (): void => {
    void forgetUnfinished(props);
    setBegun(undefined);
    setRound(round + 1);
  };
  return (
    <>
      <Stage
        fill
        title={check.title}
        aside={
          <div className="measure__set-up">
            {live ? (
              <SimulatedHand action={{ do: 'rock', stations: settings.stations ?? 4 }} assembly={props.assembly} />
            ) : undefined}
            <GaugePick gauge={gauge} all={all} choose={choose} />
            <BacklashSetUp settings={settings} onChange={change} heelRadius_mm={heelRadiusOf(build)} />
          </div>
        }
      >
        {gauge === undefined || !live ? (
          <NoGauge kind="indicator" gauge={gauge} />
        ) : (
          <BacklashPicture gauge={gauge} sheet={build.specSheet} teeth={build.makeUp?.ringTeeth} />
        )}
      </Stage>
      <BacklashWords {...{ props, settings, measuring, onByHand }} onBeginAgain={beginAgain} />
    </>
  );
}

const heelRadiusOf = ({ makeUp }: CheckProps['build']): number | undefined =>
  makeUp?.outerDiameter_mm === undefined ? undefined : makeUp.outerDiameter_mm / 2;

interface BacklashWordsProps {
  readonly props: CheckProps;
  readonly settings: CaptureSettingsOf<'backlash'>;
  readonly measuring: Measuring;
  readonly onBeginAgain: () => void;
  readonly onByHand: () => void;
}

function BacklashWords({ props, settings, measuring, onBeginAgain, onByHand }: BacklashWordsProps) {
  const { build, check } = props;
  const { gauge, live, next, again } = measuring;
  const ways = waysToRead(gauge, live, onByHand);
  const run = useRun(({ run }) => run);
  const measured = run?.stations.length ?? 0;
  const wanted = settings.stations ?? 0;
  // The stem is still near it: what was just refused is taken again before anything else.
  const refused = run !== undefined && refusedLast(run);
  return (
    <Words
      title={titleOf(run, wanted, live)}
      next={ways.first ?? action({ measured, wanted, refused }, { next, again, record: () => void record(props) })}
      others={
        <>
          {live ? (
            <Button onPress={again} keyHint="PgUp">
              Again
            </Button>
          ) : undefined}
          {run !== undefined && measured > 0 && measured < wanted ? (
            <Button
              onPress={() => void record(props)}
            >{`Record with ${measured} ${measured === 1 ? 'station' : 'stations'}`}</Button>
          ) : undefined}
          {run !== undefined && run.before > 0 ? <Button onPress={onBeginAgain}>Begin again</Button> : undefined}
          <Button onPress={ways.beside.run}>{ways.beside.words}</Button>
        </>
      }
    >
      <BacklashTelling
        run={run}
        how={howFelt(check.how, settings)}
        limit={limitFor(build.specSheet, 'backlash', settings.basis)}
        sheet={build.specSheet}
      />
      <ConvertedLimits build={build} basis={settings.basis} />
    </Words>
  );
}

/** Which station is at work; after a break, and while the gauge is away, what is there already and where it goes on. */
function titleOf(run: Run | undefined, wanted: number, live: boolean): string {
  const measured = run?.stations.length ?? 0;
  if (run !== undefined && refusedLast(run)) return `Station ${measured} has no number`;
  if (measured >= wanted) return `${measured} stations taken`;
  const isBroken = !live || (run !== undefined && run.before === measured && run.found.length === 0);
  return measured > 0 && isBroken
    ? `${measured} taken, go on at ${measured + 1}`
    : `Station ${measured + 1} of ${wanted}`;
}

/** The step says how backlash is usually felt; where it is felt square to the tooth it says so. */
const howFelt = (how: string, { basis }: CaptureSettingsOf<'backlash'>): string =>
  basis.direction === 'along-rotation'
    ? how
    : `Hold the pinion. Stem ${basisWords(basis)}. Rock the ring gear at four stations or more.`;

interface StationsNow {
  readonly measured: number;
  readonly wanted: number;
  readonly refused: boolean;
}

function action(
  { measured, wanted, refused }: StationsNow,
  ways: Readonly<Record<'next' | 'again' | 'record', () => void>>,
): NextAction {
  if (refused) return { words: `Take station ${measured} again`, run: ways.again };
  return measured < wanted ? { words: 'Next station', run: ways.next } : { words: 'Record backlash', run: ways.record };
}

/** The station taken last has no number, and no other was begun since. */
const refusedLast = ({ stations, found }: Run): boolean => {
  const last = stations.at(-1);
  return last !== undefined && isNone(last.value) && found.at(-1)?.kind !== 'rock-counted';
};
