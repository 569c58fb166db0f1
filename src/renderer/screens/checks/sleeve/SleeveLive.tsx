import { useEffect, useMemo } from 'react';
import { type SleeveAdvice, sleeveAdvice, type SleeveStand } from '../../../../shared/measuring/torque/crushSleeve.ts';
import { showText } from '../../../../shared/basics/show.ts';
import type { TorqueResult, CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { giveCue } from '../../../cues/give.ts';
import { type Run, useRun } from '../../../live/run.ts';
import { Button } from '../../../parts/Button.tsx';
import { emptyDraft } from '../../../parts/quantity.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { GaugePick } from '../check/GaugePick.tsx';
import { NoGauge, waysToRead } from '../check/NoGauge.tsx';
import { record } from '../check/record.ts';
import { SimulatedHand } from '../check/SimulatedHand.tsx';
import { type Measuring, useMeasuring } from '../check/useMeasuring.ts';
import { torqueResultOf } from '../torque/settings.ts';
import { type NutDraft, readNut } from './NutFields.tsx';
import { SleevePicture } from './SleevePicture.tsx';
import { nutTurned_deg, type SleeveAim, stepFrom, stepsOf } from './steps.ts';
import { dropStep, sleeveWays } from './ways.ts';
import { aimWords, comingWords, isStop, standCue, standTitle, wastedWords } from './words.ts';

interface SleeveLiveProps extends CheckProps {
  readonly settings: CaptureSettingsOf<'torque'>;
  /** Undefined while nobody has entered where it goes. */
  readonly aim: SleeveAim | undefined;
  /** Enters the torque it came to in the end: the steps are the technician's own then. */
  readonly onByHand: () => void;
}

/** Creeping up on a crush sleeve: step by step towards the band, with the nut's largest torque as a stop. */
export function SleeveLive(props: SleeveLiveProps) {
  const { build, assembly, check, settings, aim } = props;
  const units = useSession((session) => session.units);
  const measuring = useMeasuring(settings, build.specSheet);
  const { gauge, all, choose, live } = measuring;
  const steps = useMemo(() => stepsOf(assembly), [assembly]);
  const advice = useMemo(() => sleeveAdvice(steps, aim?.target), [steps, aim]);
  const { draft: nut, change } = useHeld<NutDraft>(() => ({ turn: '', torque: emptyDraft('fastener', units) }));
  // A hand that stands for a technician's turns the nut too, where nobody has said by how much.
  const turn = nut.turn.trim() === '' && steps.length > 0 ? handTurn_deg : nut.turn;
  return (
    <>
      <Stage
        fill
        title={`${check.title}, crush sleeve`}
        aside={
          <div className="measure__set-up">
            {live ? (
              <SimulatedHand
                // At each step it is offered anew.
                key={steps.length}
                action={{ do: 'turn-pinion', what: 'pinion' }}
                assembly={assembly}
                nutTurned_deg={nutTurned_deg(steps, readNut({ ...nut, turn }))}
                onBegin={() => change({ turn })}
              />
            ) : undefined}
            <GaugePick gauge={gauge} all={all} choose={choose} />
          </div>
        }
      >
        {gauge === undefined || !live ? (
          <NoGauge kind="torque" gauge={gauge} />
        ) : (
          <SleevePicture
            gauge={gauge}
            aim={aim}
            advice={advice}
            before={steps.length - advice.last.length}
            nut={nut}
            onNut={change}
          />
        )}
      </Stage>
      <SleeveWords
        props={props}
        measuring={measuring}
        advice={advice}
        nut={nut}
        onKept={(goesOn) => change({ turn: goesOn ? nut.turn : '', torque: { ...nut.torque, text: '' } })}
      />
    </>
  );
}

/** A small step of the nut, as somebody takes it who has crushed a sleeve too far before. */
const handTurn_deg = '4';

interface SleeveWordsProps {
  readonly props: SleeveLiveProps;
  readonly measuring: Measuring;
  readonly advice: SleeveAdvice;
  readonly nut: NutDraft;
  /** Whether the nut is to be turned further: then the same turn is offered again. */
  readonly onKept: (goesOn: boolean) => void;
}

function SleeveWords({ props, measuring, advice, nut, onKept }: SleeveWordsProps) {
  const { aim } = props;
  const ways = waysToRead(measuring.gauge, measuring.live, props.onByHand);
  const units = useSession((session) => session.units);
  const result = useRun(({ run }) => torqueResultOf(run));
  const passed = usePassed(result, props, nut);
  const { keep, replace } = sleeveWays({
    assembly: props.assembly,
    aim,
    nut,
    units,
    result,
    isPassed: passed !== undefined,
    onKept,
  });
  const said = passed ?? advice;
  // While the pinion is turning the mean still comes down from the breakaway: a step is kept when the hand has let go.
  const turning = useRun(({ run }) => pullOf(run) === 'pulling');
  const next = action(said, result !== undefined && !turning, {
    take: { words: `Record ${props.check.title.toLowerCase()}`, run: () => void record(props) },
    keep: { words: 'Keep this step', run: () => void keep() },
    band: { words: 'Enter the band', run: () => go({ at: 'limits', build: props.build.id }) },
  });
  const coming = comingWords(said, units);
  const wasted = Math.max(0, props.assembly.sleeves.length - 1);
  return (
    <Words
      title={standTitle[said.stand]}
      next={measuring.live ? next : ways.first}
      others={
        <>
          {measuring.live ? (
            <Others
              props={props}
              stand={said.stand}
              there={result !== undefined}
              keep={() => void keep()}
              replace={() => void replace()}
              {...(passed === undefined ? backTo(advice, props) : { back: 'Read again', goBack: measuring.again })}
            />
          ) : undefined}
          <Button onPress={ways.beside.run}>{ways.beside.words}</Button>
        </>
      }
    >
      <p>
        {said.sentence === undefined ? undefined : <strong>{said.sentence} </strong>}
        {said.remedy}
      </p>
      {coming === undefined ? undefined : <p>{coming}</p>}
      {aim === undefined ? undefined : <p className="quiet">{aimWords(aim, units)}</p>}
      {wasted === 0 ? undefined : <p className="quiet">{wastedWords(wasted)}</p>}
    </Words>
  );
}

/** In the band, what is read last counts; at a stop nothing stands out, because nothing is to be done in passing. */
function action(
  { stand }: SleeveAdvice,
  there: boolean,
  { take, keep, band }: Readonly<Record<'take' | 'keep' | 'band', NextAction>>,
): NextAction | undefined {
  if (isStop(stand)) return undefined;
  if (stand === 'no-band') return band;
  return { ...(stand === 'in-band' ? take : keep), disabled: !there };
}

interface OthersProps {
  readonly props: SleeveLiveProps;
  readonly stand: SleeveStand;
  readonly there: boolean;
  readonly keep: () => void;
  readonly replace: () => void;
  readonly back?: string;
  readonly goBack?: () => void;
}

function Others({ props, stand, there, keep, replace, back, goBack }: OthersProps) {
  return (
    <>
      {isStop(stand) ? <Button onPress={replace}>New sleeve is in</Button> : undefined}
      {stand === 'no-band' && there ? <Button onPress={keep}>Keep this step</Button> : undefined}
      {(isStop(stand) || stand === 'no-band') && there ? (
        <Button onPress={() => void record(props)}>Record as it is</Button>
      ) : undefined}
      {goBack === undefined ? undefined : <Button onPress={goBack}>{back}</Button>}
    </>
  );
}

const backTo = ({ last }: SleeveAdvice, { assembly }: SleeveLiveProps): Pick<OthersProps, 'back' | 'goBack'> =>
  last.length === 0 ? {} : { back: 'Strike the last step', goBack: () => void dropStep(assembly) };

/** Whether the hand pulls or has let go; neither before the first pull. */
const pullOf = (run: Run | undefined): 'pulling' | 'let-go' | undefined => {
  const last = run?.found.findLast(({ kind }) => kind === 'pulling' || kind === 'let-go')?.kind;
  return last === 'pulling' || last === 'let-go' ? last : undefined;
};

/**
 * A reading past the top of the band, or a nut at its largest torque, is told as soon as the hand has let go, kept as a step
 * or not; before that the mean may still come down from the breakaway.
 */
function usePassed(
  result: TorqueResult | undefined,
  { assembly, aim }: SleeveLiveProps,
  nut: NutDraft,
): SleeveAdvice | undefined {
  const units = useSession((session) => session.units);
  const letGo = useRun(({ run }) => pullOf(run) === 'let-go');
  const step = letGo && result !== undefined ? stepFrom(result, readNut(nut)) : undefined;
  const now = step === undefined ? undefined : sleeveAdvice([...stepsOf(assembly), step], aim?.target);
  const passed = now !== undefined && isStop(now.stand) ? now : undefined;
  const stand = passed?.stand;
  const words = stand === undefined ? '' : `${standTitle[stand]}, ${showText(step?.running ?? 0, 'torque', units)}`;
  useEffect(() => {
    if (stand !== undefined) giveCue(standCue[stand], words, words);
  }, [stand, words]);
  return passed;
}
