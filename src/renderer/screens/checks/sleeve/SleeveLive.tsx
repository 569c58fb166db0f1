import { useEffect, useMemo } from 'react';
import { type SleeveAdvice, sleeveAdvice, type SleeveStand } from '../../../../shared/measuring/torque/crushSleeve.ts';
import { showText } from '../../../../shared/basics/show.ts';
import type { TorqueResult, CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { giveCue } from '../../../cues/give.ts';
import { useRun } from '../../../live/run.ts';
import { Button } from '../../../parts/Button.tsx';
import { emptyDraft } from '../../../parts/quantity.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { GaugePick } from '../check/GaugePick.tsx';
import { NoGauge } from '../check/NoGauge.tsx';
import { record } from '../check/record.ts';
import { SimulatedHand } from '../check/SimulatedHand.tsx';
import { type Measuring, useMeasuring } from '../check/useMeasuring.ts';
import { torqueResultOf } from '../torque/settings.ts';
import { type NutDraft, readNut } from './NutFields.tsx';
import { SleevePicture } from './SleevePicture.tsx';
import { dropStep, keepStep, newSleeve, nutTurned_deg, type SleeveAim, stepFrom, stepsOf, useSleeve } from './steps.ts';
import { aimWords, comingWords, isStop, standCue, standTitle } from './words.ts';

interface SleeveLiveProps extends CheckProps {
  readonly settings: CaptureSettingsOf<'torque'>;
  readonly aim: SleeveAim;
}

/** Creeping up on a crush sleeve: step by step towards the band, with the nut's largest torque as a stop. */
export function SleeveLive(props: SleeveLiveProps) {
  const { build, assembly, check, settings, aim } = props;
  const units = useSession((session) => session.units);
  const measuring = useMeasuring(settings, build.specSheet);
  const { gauge, all, choose, live } = measuring;
  const steps = useSleeve((now) => stepsOf(now, assembly.id));
  const advice = useMemo(() => sleeveAdvice(steps, aim.target), [steps, aim]);
  const { draft: nut, change } = useHeld<NutDraft>(() => ({ turn: '', torque: emptyDraft('fastener', units) }));
  return (
    <>
      <Stage
        fill
        title={`${check.title}, crush sleeve`}
        aside={
          <div className="measure__set-up">
            {live ? (
              <SimulatedHand
                action={{ do: 'turn-pinion', what: 'pinion' }}
                assembly={assembly}
                nutTurned_deg={nutTurned_deg(steps, readNut(nut))}
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
  const units = useSession((session) => session.units);
  const result = useRun(({ run }) => torqueResultOf(run));
  const passed = usePassed(result, props, nut);
  const keep = (): void => {
    const step = result === undefined ? undefined : stepFrom(result, readNut(nut));
    if (step === undefined) return;
    keepStep(props.assembly.id, step);
    const { stand } = sleeveAdvice(stepsOf(useSleeve.getState(), props.assembly.id), aim.target);
    const words = `${standTitle[stand]}, ${showText(step.running, 'torque', units)}`;
    giveCue(standCue[stand], words, words);
    onKept(stand === 'below');
    measuring.again();
  };
  const said = passed ?? advice;
  const next = action(said, result !== undefined, {
    take: { words: `Record ${props.check.title.toLowerCase()}`, run: () => void record(props) },
    keep: { words: 'Keep this step', run: keep },
  });
  const coming = comingWords(said, units);
  return (
    <Words
      title={standTitle[said.stand]}
      next={measuring.live ? next : undefined}
      others={
        measuring.live ? (
          <Others
            props={props}
            stand={said.stand}
            there={result !== undefined}
            {...(passed === undefined ? backTo(advice, props) : { back: 'Read again', goBack: measuring.again })}
          />
        ) : undefined
      }
    >
      <p>
        {said.sentence === undefined ? undefined : <strong>{said.sentence} </strong>}
        {said.remedy}
      </p>
      {coming === undefined ? undefined : <p>{coming}</p>}
      <p className="quiet">{aimWords(aim, units)}</p>
    </Words>
  );
}

/** In the band, what is read last counts; at a stop nothing stands out, because nothing is to be done in passing. */
function action(
  { stand }: SleeveAdvice,
  there: boolean,
  { take, keep }: Readonly<Record<'take' | 'keep', NextAction>>,
): NextAction | undefined {
  if (isStop(stand)) return undefined;
  return { ...(stand === 'in-band' ? take : keep), disabled: !there };
}

interface OthersProps {
  readonly props: SleeveLiveProps;
  readonly stand: SleeveStand;
  readonly there: boolean;
  readonly back?: string;
  readonly goBack?: () => void;
}

function Others({ props, stand, there, back, goBack }: OthersProps) {
  return (
    <>
      {isStop(stand) ? <Button onPress={() => newSleeve(props.assembly.id)}>New sleeve is in</Button> : undefined}
      {isStop(stand) && there ? <Button onPress={() => void record(props)}>Record as it is</Button> : undefined}
      {goBack === undefined ? undefined : <Button onPress={goBack}>{back}</Button>}
    </>
  );
}

const backTo = ({ last }: SleeveAdvice, { assembly }: SleeveLiveProps): Pick<OthersProps, 'back' | 'goBack'> =>
  last.length === 0 ? {} : { back: 'Take the step back', goBack: () => dropStep(assembly.id) };

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
  const letGo = useRun(({ run }) => run?.found.at(-1)?.kind === 'let-go');
  const steps = useSleeve((now) => stepsOf(now, assembly.id));
  const step = letGo && result !== undefined ? stepFrom(result, readNut(nut)) : undefined;
  const now = step === undefined ? undefined : sleeveAdvice([...steps, step], aim.target);
  const passed = now !== undefined && isStop(now.stand) ? now : undefined;
  const stand = passed?.stand;
  const words = stand === undefined ? '' : `${standTitle[stand]}, ${showText(step?.running ?? 0, 'torque', units)}`;
  useEffect(() => {
    if (stand !== undefined) giveCue(standCue[stand], words, words);
  }, [stand, words]);
  return passed;
}
