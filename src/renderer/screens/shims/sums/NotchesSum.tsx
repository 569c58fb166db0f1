import { useMemo } from 'react';
import { notchWords } from '../../../../shared/job/swap/swapWords.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { showText } from '../../../../shared/basics/show.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import { useSession } from '../../../stores/session.ts';
import { numberIn } from './inputs.ts';
import { backlashPerAway, backlashThen, notchesNow, notchFrom } from './sides.ts';
import { SumChoice } from './SumChoice.tsx';
import type { SumProps } from './sumProps.ts';
import { SumWords } from './SumWords.tsx';
import { useLengths } from './useQuantities.tsx';

/** From now on cards count in notches of this size. */
const keepNotch = (makeUp: MakeUp, notch: number): Promise<boolean> =>
  writeDeed({ kind: 'described', makeUp: { ...makeUp, ringStep_mm: Math.round(notch * 1e4) / 1e4 } });

const answerWords = (turns: readonly string[], then: string): string =>
  turns.length === 0 ? 'It stands as near to the wanted backlash as a notch allows.' : `${turns.join(' ')}${then}`;

/** Notches of the side adjusters, calibrated on this axle by two readings. */
export function NotchesSum({ build, assembly }: SumProps) {
  const units = useSession((session) => session.units);
  const { draft, change } = useHeld(() => ({ moved: '' }));
  const { field, read } = useLengths<'before' | 'after' | 'wanted'>();
  const moved = numberIn(draft.moved);
  const isWhole = moved === undefined || Number.isInteger(moved);
  const readings = {
    moved: isWhole ? moved : undefined,
    before: read('before'),
    after: read('after'),
    wanted: read('wanted'),
  };
  const notches = notchesNow(readings);
  const then = backlashThen(readings);
  const { makeUp } = build;
  const perAway = useMemo(() => (makeUp === undefined ? undefined : backlashPerAway(makeUp)), [makeUp]);
  const notch = notchFrom(readings, perAway);
  const thenWords =
    then === undefined ? '' : ` The backlash is then expected at ${showText(then, 'length', units)}; read it.`;
  return (
    <>
      <Stage title="The adjusters, worked out" aside={<SumChoice build={build} assembly={assembly} sum="sides" />}>
        <div className="form">
          <div className="form__fields">
            {field('before', 'Backlash before', 'At one station, caps at full torque.')}
            <Field
              label="Notches moved"
              inputMode="text"
              value={draft.moved}
              error={isWhole ? undefined : 'Whole notches: an adjuster is locked at none between two.'}
              hint="Away from the pinion +, closer −; both sides by as many."
              onChange={(moved) => change({ moved })}
            />
            {field('after', 'Backlash after', 'At the same station.')}
            {field('wanted', 'Backlash wanted')}
          </div>
        </div>
      </Stage>
      <SumWords
        build={build}
        assembly={assembly}
        about="Adjusters worked out."
        answer={notches?.ok === true ? answerWords(notchWords(notches.value), thenWords) : undefined}
        problem={notches?.ok === false ? notches.problem : undefined}
        also={
          makeUp === undefined || notch === undefined ? undefined : (
            <Button onPress={() => void keepNotch(makeUp, notch)}>
              {`Keep ${showText(notch, 'length', units)} a notch with the axle`}
            </Button>
          )
        }
        why="Both sides turn by as many notches, so the preload stays. Each ends on a tightening turn, so that the slack of its thread lies on the tight side (common practice)."
      />
    </>
  );
}
