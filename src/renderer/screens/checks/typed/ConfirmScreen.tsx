import { useState } from 'react';
import { fail, ok } from '../../../../shared/basics/result.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { TypedStage } from './TypedStage.tsx';

/** Something looked at and answered with yes or no. */
export function ConfirmScreen(props: CheckProps) {
  const [answer, setAnswer] = useState<'yes' | 'no'>();
  const [note, setNote] = useState('');
  const [tried, setTried] = useState(false);
  const read = () => {
    if (answer === undefined) return fail({ kind: 'unanswered', sentence: 'Answer yes or no.', remedy: 'Choose one.' });
    const written = note.trim() === '' ? {} : { note: note.trim() };
    return ok({
      how: { kind: 'seen' as const },
      result: { kind: 'confirmed' as const, yes: answer === 'yes', ...written },
    });
  };
  return (
    <TypedStage
      {...props}
      read={read}
      onRefused={() => setTried(true)}
      touched={answer !== undefined}
      keep="Keep the answer"
    >
      <div className="typed__wide">
        <Choice
          label={props.check.title}
          value={answer}
          onChange={setAnswer}
          error={tried && answer === undefined ? 'Answer yes or no.' : undefined}
          options={[
            { value: 'yes', words: 'Yes, I have seen it' },
            { value: 'no', words: 'No' },
          ]}
        />
      </div>
      <div className="typed__wide">
        <Field label="Note" lines={2} value={note} onChange={setNote} hint="With a no, say what was found." />
      </div>
    </TypedStage>
  );
}
