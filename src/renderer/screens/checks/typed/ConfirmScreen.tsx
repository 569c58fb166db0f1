import { type ReactNode, useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import { answersOf } from '../../../../shared/presentation/words/answers.ts';
import { ok } from '../../../../shared/basics/result.ts';
import { pedalAgain } from '../../../commands/registry.ts';
import { useCommand } from '../../../commands/useCommand.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { useSession } from '../../../stores/session.ts';
import type { NextAction } from '../../../parts/Words.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { blankConfirm, type ConfirmDraft, detailsOf, readDetails } from './confirmDraft.ts';
import { BoltCircle } from './BoltCircle.tsx';
import { ConfirmDetails } from './ConfirmDetails.tsx';
import { TypedStage } from './TypedStage.tsx';
import { useTypedForm } from './useTypedForm.ts';

interface ConfirmScreenProps extends CheckProps {
  /** Other ways to come to an answer. */
  readonly others?: ReactNode;
}

/** Something looked at and answered with yes or no: the pedal says yes, its other stroke no. */
export function ConfirmScreen({ others, ...props }: ConfirmScreenProps) {
  const { build, assembly, check } = props;
  const units = useSession((session) => session.units);
  const details = detailsOf(check.id);
  const { draft, change, errors, submit } = useTypedForm(props, {
    start: (): ConfirmDraft => blankConfirm(build.makeUp?.ringBolts, units),
    read: (now) => {
      const read = readDetails(now, details);
      return read.ok ? ok({ how: { kind: 'seen' as const }, result: read.value }) : read;
    },
  });
  const [anew, setAnew] = useState(false);
  // What an indicator read is another answer than a hand's, and does not stand for it.
  const answered = latest(assembly, check.id)?.result.kind === 'confirmed' && !anew;
  const answers = answersOf(check.id);
  const said: NextAction = { words: draft.yes ? answers.yes : `Keep: ${lower(answers.no)}`, run: submit };
  const no = (): void => change({ yes: false });
  useCommand(pedalAgain, answers.no, answered || !draft.yes ? undefined : no);
  return (
    <TypedStage
      {...props}
      submit={submit}
      touched={!answered}
      keep={said.words}
      answer={said}
      {...(details === 'bolts' ? { picture: <BoltCircle bolts={draft.counted} missing={countThem} /> } : {})}
      others={
        answered ? (
          <Button onPress={() => setAnew(true)}>Answer anew</Button>
        ) : (
          <>
            <Other answers={answers} draft={draft} onChange={change} />
            {others}
          </>
        )
      }
    >
      <ConfirmDetails build={build} details={details} draft={draft} errors={errors} onChange={change} />
      <div className="typed__wide">
        <Field
          key={draft.yes ? 'yes' : 'no'}
          label={draft.yes ? 'Note' : 'What was found'}
          lines={2}
          autoFocus={!draft.yes}
          value={draft.note}
          onChange={(note) => change({ note })}
        />
      </div>
    </TypedStage>
  );
}

const lower = (words: string): string => `${words.charAt(0).toLowerCase()}${words.slice(1)}`;

const countThem = 'Count the bolts: the order of tightening is drawn here.';

interface OtherProps {
  readonly answers: ReturnType<typeof answersOf>;
  readonly draft: ConfirmDraft;
  readonly onChange: (change: Partial<ConfirmDraft>) => void;
}

/** The answer that does not stand out. */
const Other = ({ answers, draft, onChange }: OtherProps) =>
  draft.yes ? (
    <Button keyHint="PgUp" onPress={() => onChange({ yes: false })}>
      {answers.no}
    </Button>
  ) : (
    <Button onPress={() => onChange({ yes: true })}>{`${answers.yes} after all`}</Button>
  );
