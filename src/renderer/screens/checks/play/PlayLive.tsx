import { isNone } from '../../../../shared/basics/result.ts';
import { sentences } from '../../../../shared/measuring/endPlay.ts';
import type { StationMeasured } from '../../../../shared/measuring/backlash/measured.ts';
import { limitFor } from '../../../../shared/presentation/drawing/stations.ts';
import { limitWords } from '../../../../shared/presentation/words/limits.ts';
import type { CaptureSettingsOf, MeasuredResult } from '../../../../shared/job/records/measurement.ts';
import { useRun } from '../../../live/run.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { useSession } from '../../../stores/session.ts';
import { rocksNow } from '../backlash/found.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { GaugePick } from '../check/GaugePick.tsx';
import { NoGauge } from '../check/NoGauge.tsx';
import { SimulatedHand } from '../check/SimulatedHand.tsx';
import { type Measuring, useMeasuring } from '../check/useMeasuring.ts';
import { useRecordWhenComplete } from '../check/useRecordWhenComplete.ts';
import { PlayPicture } from './PlayPicture.tsx';
import '../check/measure.css';

const settings: CaptureSettingsOf<'play'> = { kind: 'play' };

/** How this play is pushed and pulled, and what is recorded where none can be felt. */
interface PlayWays {
  readonly notFelt: MeasuredResult;
  /** Opens the other way, which needs no gauge. */
  readonly onByHand: () => void;
  readonly byHand: string;
}

interface PlayLiveProps extends CheckProps {
  readonly ways: PlayWays;
}

/** Play hands free: push, hold, pull, hold. It is recorded when the strokes agree. */
export function PlayLive(props: PlayLiveProps) {
  const { build, assembly, check } = props;
  const measuring = useMeasuring(settings, build.specSheet);
  const { gauge, all, choose, live } = measuring;
  useRecordWhenComplete(props);
  return (
    <>
      <Stage
        fill
        title={check.title}
        aside={
          <div className="measure__set-up">
            {live ? <SimulatedHand action={{ do: 'push-case' }} assembly={assembly} /> : undefined}
            <GaugePick gauge={gauge} all={all} choose={choose} />
          </div>
        }
      >
        {gauge === undefined || !live ? <NoGauge kind="indicator" gauge={gauge} /> : <PlayPicture gauge={gauge} />}
      </Stage>
      <PlayWords {...props} measuring={measuring} />
    </>
  );
}

function PlayWords({ build, assembly, check, measuring, ways }: PlayLiveProps & { readonly measuring: Measuring }) {
  const units = useSession((session) => session.units);
  const run = useRun(({ run }) => run);
  const { live, again } = measuring;
  const strokes = rocksNow(run).rocks;
  const refused = refusalOf(run?.stations.at(-1));
  const [quantity] = check.limits;
  const limit = quantity === undefined ? undefined : limitFor(build.specSheet, quantity);
  // What a hand feels is no reading: it is recorded as seen, never as measured.
  const notFelt = (): void =>
    void writeDeed({
      kind: 'measured',
      assembly: assembly.id,
      check: check.id,
      how: { kind: 'seen' },
      result: ways.notFelt,
    });
  return (
    <Words
      title={titleOf(refused, strokes)}
      next={actionOf({ live, strokes, refused }, { ...ways, again, notFelt })}
      others={
        <>
          {live && strokes === 0 && refused === undefined ? undefined : (
            <Button onPress={notFelt}>No play can be felt</Button>
          )}
          {live ? <Button onPress={ways.onByHand}>{ways.byHand}</Button> : undefined}
        </>
      }
    >
      <p>{refused ?? check.how}</p>
      <p className="quiet">
        {limit === undefined
          ? quantity === undefined
            ? ''
            : 'No limit is entered for it.'
          : `Limit ${limitWords(limit, units)}.`}
      </p>
    </Words>
  );
}

const refusalOf = (station: StationMeasured | undefined): string | undefined =>
  station !== undefined && isNone(station.value) ? sentences[station.value.none] : undefined;

interface PlayNow {
  readonly live: boolean;
  readonly strokes: number;
  /** Why there is no number, where it came to none. */
  readonly refused: string | undefined;
}

/** While nothing has moved, that no play can be felt is the likely answer; once something has, the strokes go on by themselves. */
function actionOf(
  { live, strokes, refused }: PlayNow,
  ways: Omit<PlayWays, 'notFelt'> & { readonly again: () => void; readonly notFelt: () => void },
): NextAction | undefined {
  if (!live) return { words: ways.byHand, run: ways.onByHand };
  if (refused !== undefined) return { words: 'Take it again', run: ways.again };
  return strokes === 0 ? { words: 'No play can be felt', run: ways.notFelt } : undefined;
}

function titleOf(refused: string | undefined, strokes: number): string {
  if (refused !== undefined) return 'Not to be told from these strokes';
  if (strokes === 0) return 'Push and pull, held at each end';
  return strokes === 1 ? 'One stroke taken' : `${strokes} strokes taken`;
}
