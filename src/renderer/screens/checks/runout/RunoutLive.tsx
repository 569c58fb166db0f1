import type { CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { useState } from 'react';
import type { HandAction } from '../../../../shared/contract/bench.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { fewestStations } from '../../../../shared/job/checks/checks.ts';
import { type Begun, type Run, useRun } from '../../../live/run.ts';
import { Button } from '../../../parts/Button.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import type { CheckId } from '../../../../shared/job/records/checkIds.ts';
import type { CheckProps } from '../check/checkProps.ts';
import type { LiveProps } from '../check/liveProps.ts';
import { GaugePick } from '../check/GaugePick.tsx';
import { NoGauge, waysToRead } from '../check/NoGauge.tsx';
import { record } from '../check/record.ts';
import { SimulatedHand } from '../check/SimulatedHand.tsx';
import { forgetUnfinished, useNoted } from '../check/useUnfinished.ts';
import { type Measuring, useMeasuring } from '../check/useMeasuring.ts';
import { lastBacklashSettings } from '../stem/backlashStem.ts';
import { lastRunoutStem, lastRunoutWay, stemSaid } from '../stem/runoutStem.ts';
import { RunoutStem } from '../stem/RunoutStem.tsx';
import { RunoutPicture } from './RunoutPicture.tsx';
import { RunoutTelling } from './RunoutTelling.tsx';
import { atStations, optionOf, runoutOptions, settingsOf } from './settings.ts';
import { closedResultOf, runoutResultOf, stationsTaken, waitsAt } from './taken.ts';
import '../check/measure.css';

/** Runout over one turn between two strokes of the pedal, or at stations where the hand pauses. */
export function RunoutLive({ found, onByHand, ...props }: LiveProps) {
  const { build, check } = props;
  const [settings, setSettings] = useState<CaptureSettingsOf<'runout'>>(() =>
    found?.settings.kind === 'runout' ? found.settings : usualWay(build, check.id),
  );
  const [begun, setBegun] = useState<Begun | undefined>(found);
  const [round, setRound] = useState(0);
  const measuring = useMeasuring(settings, build.specSheet, { round, begun });
  useNoted(props);
  const change = (changed: CaptureSettingsOf<'runout'>): void => {
    setBegun(undefined);
    setSettings(changed);
  };
  const beginAgain = (): void => {
    void forgetUnfinished(props);
    setBegun(undefined);
    setRound(round + 1);
  };
  const { gauge, all, choose, live } = measuring;
  return (
    <>
      <Stage
        fill
        title={check.title}
        aside={
          <div className="measure__set-up">
            {live ? <SimulatedHand action={handFor(check.id, settings)} assembly={props.assembly} /> : undefined}
            <GaugePick gauge={gauge} all={all} choose={choose} />
            <Pick
              bare
              label="How it is taken"
              value={optionOf(settings)}
              options={runoutOptions}
              onChange={(option) => change({ ...stemSaid(settings), ...settingsOf(option) })}
            />
            <RunoutStem settings={settings} onChange={change} />
          </div>
        }
      >
        {gauge === undefined || !live ? (
          <NoGauge kind="indicator" gauge={gauge} />
        ) : (
          <RunoutPicture gauge={gauge} check={check} build={build} />
        )}
      </Stage>
      <RunoutLiveWords {...{ props, settings, measuring, onByHand }} onBeginAgain={beginAgain} />
    </>
  );
}

const usualWay = (build: CheckProps['build'], check: CheckId): CaptureSettingsOf<'runout'> => ({
  ...(lastRunoutWay(build) ?? atStations(lastBacklashSettings(build)?.stations ?? fewestStations)),
  ...lastRunoutStem(build, check),
});

interface RunoutLiveWordsProps {
  readonly props: CheckProps;
  readonly settings: CaptureSettingsOf<'runout'>;
  readonly measuring: Measuring;
  readonly onBeginAgain: () => void;
  readonly onByHand: () => void;
}

function RunoutLiveWords({ props, settings, measuring, onBeginAgain, onByHand }: RunoutLiveWordsProps) {
  const { gauge, live, next, again } = measuring;
  const ways = waysToRead(gauge, live, onByHand);
  const run = useRun(({ run }) => run);
  const taken: TurnTaken = { presses: run?.presses ?? 0, stations: stationsTaken(run) };
  const keep = (): void => void record(props);
  const closed = closedResultOf(run);
  // A turn that gave no number is not worth recording: the sentence says why, and the next thing is another turn.
  const failed = closed !== undefined && isNone(closed.tir_mm);
  const full = action(settings, taken, { next, keep });
  return (
    <Words
      title={turnTitle(settings, taken, run)}
      next={ways.first ?? (failed ? { words: 'Take the turn again', run: again } : full)}
      others={
        <>
          {live ? (
            <Button onPress={again} keyHint="PgUp">
              Again
            </Button>
          ) : undefined}
          {!live || runoutResultOf(run) === undefined || full.run === keep ? undefined : (
            <Button onPress={keep}>Record as it is</Button>
          )}
          {live && run !== undefined && (run.before > 0 || run.held) ? (
            <Button onPress={onBeginAgain}>Begin again</Button>
          ) : undefined}
          <Button onPress={ways.beside.run}>{ways.beside.words}</Button>
        </>
      }
    >
      <RunoutTelling run={run} check={props.check} build={props.build} />
    </Words>
  );
}

const handFor = (check: string, { mode, stations = 8 }: CaptureSettingsOf<'runout'>): HandAction => ({
  do: 'turn-ring',
  surface: check === 'flange-runout' ? 'flange' : 'ring-gear',
  ...(mode === 'stations' ? { stations } : {}),
});

interface TurnTaken {
  /** Strokes of the pedal. */
  readonly presses: number;
  readonly stations: number;
}

function turnTitle(
  settings: CaptureSettingsOf<'runout'>,
  { presses, stations }: TurnTaken,
  run: Run | undefined,
): string {
  if (waitsAt(run) !== undefined) return `${stations} taken, go on at ${stations + 1}`;
  if (settings.mode === 'stations') {
    const at = `station ${Math.min(stations + 1, settings.stations ?? stations + 1)} of ${settings.stations ?? 8}`;
    return stations === 0 ? capital(at) : `Turn to ${at}`;
  }
  if (presses === 0) return 'Stem on the surface, then begin';
  return presses === 1 ? 'Turning: one whole turn' : 'The turn is closed';
}

const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

/** One turn lies between two strokes of the pedal; stations are recorded when all are there. */
function action(
  settings: CaptureSettingsOf<'runout'>,
  { presses, stations }: TurnTaken,
  { next, keep }: Readonly<Record<'next' | 'keep', () => void>>,
): NextAction {
  const full = settings.mode === 'stations' ? stations >= (settings.stations ?? 8) : presses >= 2;
  if (full) return { words: 'Record runout', run: keep };
  if (settings.mode === 'stations') return { words: 'Station read', run: next };
  return { words: presses === 0 ? 'Begin the turn' : 'End the turn', run: next };
}
