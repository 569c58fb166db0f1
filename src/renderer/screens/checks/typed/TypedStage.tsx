import type { ReactNode } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import { type CheckJudged, judgeCheck } from '../../../../shared/job/checks/judge.ts';
import { sheetFor } from '../../../../shared/job/checks/limitChanges.ts';
import { Button } from '../../../parts/Button.tsx';
import { Form } from '../../../parts/Form.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { useSession } from '../../../stores/session.ts';
import { limitBasisWords, limitWords } from '../../../../shared/presentation/words/limits.ts';
import { checkBrief } from '../../../../shared/presentation/words/answers.ts';
import { shapeOf, standingWords } from '../../../../shared/presentation/words/standing.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { goOn } from '../check/goOn.ts';
import { HowTaken } from '../check/HowTaken.tsx';
import { Looked } from './Looked.tsx';
import { SimulatedReading } from './SimulatedReading.tsx';
import './typed.css';

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
  const kept = measured !== undefined && !touched;
  return (
    <>
      <Stage title={check.title} aside={<LimitInHead {...props} />}>
        <Form className={`looked ${answer === undefined ? '' : 'looked--seen'}`} words={keep} submit={submit}>
          <div className="typed">
            {measured === undefined ? undefined : <Standing {...props} />}
            {children}
          </div>
          {picture}
        </Form>
      </Stage>
      <Words
        title={kept ? 'Kept in the notebook' : check.title}
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

function LimitInHead({ build, check }: CheckProps) {
  const units = useSession((session) => session.units);
  const limits = (build.specSheet?.limits ?? []).filter((limit) => check.limits.includes(limit.quantity));
  if (limits.length === 0) return <span className="quiet">{check.limits.length === 0 ? '' : 'No limit entered'}</span>;
  return (
    <span className="quiet digits">
      {limits.map((limit) => `${limitWords(limit, units)} ${limitBasisWords(limit)}`.trim()).join('; ')}
    </span>
  );
}

/** "Outside" is said of a limit: what somebody saw and answered has its own words. */
function standingAndWhy(judged: CheckJudged): string {
  if (judged.limits.length === 0 && judged.standing === 'within') return '';
  return [standingWords(judged), ...(judged.why === undefined ? [] : [judged.why])].join('. ');
}

/** What stands in the notebook now, above the form that would replace it. */
function Standing({ build, assembly, check }: CheckProps) {
  const units = useSession((session) => session.units);
  const measured = latest(assembly, check.id);
  if (measured === undefined) return undefined;
  const judged = judgeCheck(check, measured, assembly, sheetFor(build, measured));
  return (
    <div className="typed__standing">
      <StateMark shape={shapeOf(judged)} size={34} />
      <div>
        <p className="typed__number digits">{checkBrief(check.id, measured.result, units, measured.how)}</p>
        <p>{judged.limits.length === 0 && judged.why !== undefined ? judged.why : standingAndWhy(judged)}</p>
        <HowTaken measurement={measured} />
      </div>
    </div>
  );
}
