import type { ReactNode } from 'react';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { type Assembly, latest } from '../../../../shared/job/records/build.ts';
import type { Method } from '../../../../shared/job/checks/checks.ts';
import { type CheckJudged, judgeCheck } from '../../../../shared/job/checks/judge.ts';
import { sheetFor } from '../../../../shared/job/checks/limitChanges.ts';
import type { Limit } from '../../../../shared/job/records/specSheet.ts';
import { Button } from '../../../parts/Button.tsx';
import { Form } from '../../../parts/Form.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { useSession } from '../../../stores/session.ts';
import { limitBasisWords, limitWords } from '../../../../shared/presentation/words/limits.ts';
import { checkBrief } from '../../../../shared/presentation/words/answers.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { goOn } from '../check/goOn.ts';
import { HowTaken } from '../check/HowTaken.tsx';
import { RecordedVerdict } from '../check/RecordedVerdict.tsx';
import { EarlierHere } from './EarlierHere.tsx';
import { Looked } from './Looked.tsx';
import { SimulatedReading } from './SimulatedReading.tsx';
import './typed.css';

/** What hands and eyes do; the name of the check stands above the form already. */
const askedFor: Readonly<Partial<Record<Method, string>>> = {
  confirm: 'Look, then answer',
  'case-play': 'Look, then answer',
  feeler: 'Try the joint, then answer',
  shims: 'Measure them one by one',
  'set-numbers': 'As it is cut into the metal',
  notches: 'Count, then type',
};

interface TypedStageProps extends CheckProps {
  /** Writes the entry down, or shows what is wrong in the fields. */
  readonly submit: () => void;
  /** Whether something has been typed that is not kept yet. */
  readonly touched: boolean;
  readonly keep: string;
  /** What stands out in place of keeping what is typed, where one press answers the question. */
  readonly answer?: NextAction | undefined;
  readonly others?: ReactNode;
  /** In place of the drawing of how it is taken: one of this very axle, or nothing where the fields have their own. */
  readonly picture?: ReactNode;
  readonly children: ReactNode;
}

/** The frame of everything that is typed or seen instead of sent: the form, what it is held against, keep, go on. */
export function TypedStage(props: TypedStageProps) {
  const {
    build,
    assembly,
    check,
    submit,
    touched,
    keep,
    answer,
    others,
    picture = <Looked check={check} />,
    children,
  } = props;
  const measured = latest(assembly, check.id);
  const kept = measured !== undefined && !touched && measured.id !== props.anew;
  return (
    <>
      <Stage title={check.title} aside={<LimitInHead {...props} />}>
        <Form className={`looked ${answer === undefined ? '' : 'looked--seen'}`} words={keep} submit={submit}>
          <div className="typed">
            {measured === undefined ? undefined : <Standing {...props} />}
            {children}
            <EarlierHere {...props} />
          </div>
          {picture}
        </Form>
      </Stage>
      <Words
        title={kept ? 'Kept in the notebook' : (askedFor[check.method] ?? 'Read it off and type it')}
        next={kept ? goOn(build) : (answer ?? { words: keep, run: submit })}
        others={
          <>
            {kept ? undefined : <SimulatedReading build={build} assembly={assembly} check={check} />}
            {others}
            {measured !== undefined && touched ? (
              <Button onPress={goOn(build).run}>Go on without keeping</Button>
            ) : undefined}
          </>
        }
      >
        <p>{check.how}</p>
      </Words>
    </>
  );
}

function LimitInHead({ build, assembly, check }: CheckProps) {
  const units = useSession((session) => session.units);
  const limits = (build.specSheet?.limits ?? []).filter((limit) => check.limits.includes(limit.quantity));
  if (limits.length === 0) return <span className="quiet">{check.limits.length === 0 ? '' : 'No limit entered'}</span>;
  return <span className="quiet digits">{limits.map((limit) => limitInHead(limit, assembly, units)).join('; ')}</span>;
}

/** A limit for bearings in another state is shown, because it was entered, and said to be none for this reading. */
function limitInHead(limit: Limit, { bearings, seal }: Assembly, units: UnitSystem): string {
  const what = limit.quantity === 'backlash-variation' ? 'variation ' : '';
  const words = `${what}${limitWords(limit, units)} ${what === '' ? limitBasisWords(limit) : ''}`.trim();
  if (!('basis' in limit) || 'direction' in limit.basis) return words;
  if (limit.basis.bearings !== bearings) return `${words}, not for ${bearings} ones`;
  return limit.basis.seal === seal ? words : `${words}, not with the seal ${seal}`;
}

/** "Outside" is said of a limit: what somebody saw and answered has its own words. */
const hasItsOwnWords = ({ limits, standing, why }: CheckJudged): boolean =>
  limits.length === 0 && (standing === 'within' || why !== undefined);

/** Longer than this an answer is a sentence, which is read at the stand and not from the gear (own choice). */
const longestFar = 22;

/** What stands in the notebook now, above the form that would replace it. */
function Standing({ build, assembly, check }: CheckProps) {
  const units = useSession((session) => session.units);
  const measured = latest(assembly, check.id);
  if (measured === undefined) return undefined;
  const judged = judgeCheck(check, measured, assembly, sheetFor(build, measured));
  const brief = checkBrief(check.id, measured.result, units, measured.how);
  return (
    <div className="typed__standing">
      <RecordedVerdict judged={judged} bare={hasItsOwnWords(judged)}>
        {brief.length > longestFar ? <span className="typed__sentence">{brief}</span> : brief}
      </RecordedVerdict>
      {judged.why === undefined ? undefined : <p>{judged.why}</p>}
      <HowTaken measurement={measured} />
    </div>
  );
}
