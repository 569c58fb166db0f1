import { ok } from '../../../../shared/basics/result.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { TypedStage } from './TypedStage.tsx';
import { useTypedForm } from './useTypedForm.ts';

interface ConfirmDraft {
  readonly yes: 'yes' | 'no' | undefined;
  readonly note: string;
}

/** Something looked at and answered with yes or no. */
export function ConfirmScreen(props: CheckProps) {
  const { draft, change, errors, submit } = useTypedForm(props, {
    start: (): ConfirmDraft => ({ yes: undefined, note: '' }),
    read: readAnswer,
  });
  return (
    <TypedStage {...props} submit={submit} touched={draft.yes !== undefined} keep="Keep the answer">
      <div className="typed__wide">
        <Choice
          label={props.check.title}
          value={draft.yes}
          onChange={(yes) => change({ yes })}
          error={errors.yes}
          options={[
            { value: 'yes', words: 'Yes, I have seen it' },
            { value: 'no', words: 'No' },
          ]}
        />
      </div>
      <div className="typed__wide">
        <Field
          label="Note"
          lines={2}
          value={draft.note}
          onChange={(note) => change({ note })}
          hint="With a no, say what was found."
        />
      </div>
    </TypedStage>
  );
}

function readAnswer({ yes, note }: ConfirmDraft) {
  if (yes === undefined) return wrong({ yes: 'Answer yes or no.' });
  const written = note.trim() === '' ? {} : { note: note.trim() };
  return ok({
    how: { kind: 'seen' as const },
    result: { kind: 'confirmed' as const, yes: yes === 'yes', ...written },
  });
}
