import { useMemo, useState } from 'react';
import { type SleeveAdvice, sleeveAdvice } from '../../../shared/metrology/crushSleeve.ts';
import { showText } from '../../../shared/quantities/show.ts';
import { giveCue } from '../../cues/give.ts';
import { useRun } from '../../live/run.ts';
import { Button } from '../../parts/Button.tsx';
import { emptyDraft } from '../../parts/quantity.ts';
import { Stage } from '../../parts/Stage.tsx';
import { type NextAction, Words } from '../../parts/Words.tsx';
import { useSession } from '../../stores/session.ts';
import type { CheckProps } from '../check/CheckScreen.tsx';
import { GaugePick } from '../check/GaugePick.tsx';
import { NoGauge } from '../check/NoGauge.tsx';
import { record } from '../check/record.ts';
import { SimulatedHand } from '../check/SimulatedHand.tsx';
import { type Measuring, useMeasuring } from '../check/useMeasuring.ts';
import { torqueResultOf, type TorqueSettings } from '../torque/settings.ts';
import { type NutDraft, readNut } from './NutFields.tsx';
import { SleevePicture } from './SleevePicture.tsx';
import { dropStep, keepStep, newSleeve, type SleeveAim, stepFrom, stepsOf, useSleeve } from './steps.ts';
import { aimWords, comingWords, isStop, standCue, standTitle } from './words.ts';

interface SleeveLiveProps extends CheckProps {
  readonly settings: TorqueSettings;
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
  const [nut, setNut] = useState<NutDraft>({ turn: '', torque: emptyDraft('fastener', units) });
  return (
    <>
      <Stage
        fill
        title={`${check.title}, crush sleeve`}
        aside={
          <div className="measure__set-up">
            {live ? <SimulatedHand action={{ do: 'turn-pinion', what: 'pinion' }} assembly={assembly} /> : undefined}
            <GaugePick gauge={gauge} all={all} choose={choose} />
          </div>
        }
      >
        {gauge === undefined || !live ? (
          <NoGauge kind="torque" />
        ) : (
          <SleevePicture
            gauge={gauge}
            aim={aim}
            advice={advice}
            before={steps.length - advice.last.length}
            nut={nut}
            onNut={setNut}
          />
        )}
      </Stage>
      <SleeveWords
        props={props}
        measuring={measuring}
        advice={advice}
        nut={nut}
        onKept={() => setNut({ ...nut, torque: { ...nut.torque, text: '' } })}
      />
    </>
  );
}

interface SleeveWordsProps {
  readonly props: SleeveLiveProps;
  readonly measuring: Measuring;
  readonly advice: SleeveAdvice;
  readonly nut: NutDraft;
  readonly onKept: () => void;
}

function SleeveWords({ props, measuring, advice, nut, onKept }: SleeveWordsProps) {
  const { check, aim } = props;
  const units = useSession((session) => session.units);
  const result = useRun(({ run }) => torqueResultOf(run));
  const keep = (): void => {
    const step = result === undefined ? undefined : stepFrom(result, readNut(nut));
    if (step === undefined) return;
    keepStep(props.assembly.id, step);
    const { stand } = sleeveAdvice(stepsOf(useSleeve.getState(), props.assembly.id), aim.target);
    const words = `${standTitle[stand]}, ${showText(step.running, 'torque', units)}`;
    giveCue(standCue[stand], words, words);
    onKept();
    measuring.again();
  };
  const next = action(advice, result !== undefined, keep, () => void record(props), check.title);
  const coming = comingWords(advice, units);
  return (
    <Words
      title={standTitle[advice.stand]}
      next={measuring.live ? next : undefined}
      others={measuring.live ? <Others props={props} advice={advice} there={result !== undefined} /> : undefined}
    >
      <p>
        <strong>{advice.sentence}</strong> {advice.remedy}
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
  keep: () => void,
  take: () => void,
  title: string,
): NextAction | undefined {
  if (isStop(stand)) return undefined;
  if (stand === 'in-band') return { words: `Record ${title.toLowerCase()}`, run: take, disabled: !there };
  return { words: 'Keep this step', run: keep, disabled: !there };
}

interface OthersProps {
  readonly props: SleeveLiveProps;
  readonly advice: SleeveAdvice;
  readonly there: boolean;
}

function Others({ props, advice: { stand, last }, there }: OthersProps) {
  const { id } = props.assembly;
  return (
    <>
      {isStop(stand) ? <Button onPress={() => newSleeve(id)}>New sleeve is in</Button> : undefined}
      {isStop(stand) && there ? <Button onPress={() => void record(props)}>Record as it is</Button> : undefined}
      {last.length > 0 ? <Button onPress={() => dropStep(id)}>Take the step back</Button> : undefined}
    </>
  );
}
