import { readingWords, type changesRead } from '../../../../shared/job/checks/limitChanges.ts';
import { limitChangeWords } from '../../../../shared/presentation/words/limits.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { useSession } from '../../../stores/session.ts';

/** Why a limit changes that something was held against, while it is being written. */
interface ChangeDraft {
  readonly why: string;
  readonly holds: 'from-the-start' | 'from-now-on' | undefined;
}

export type ChangeErrors = { readonly why?: string; readonly holds?: string };

interface ChangePanelProps {
  readonly changed: ReturnType<typeof changesRead>;
  readonly draft: ChangeDraft;
  readonly errors: ChangeErrors;
  readonly onChange: (change: Partial<ChangeDraft>) => void;
}

/** A limit that readings were held against changes: which, what was read, and the two questions that this leaves. */
export function ChangePanel({ changed, draft, errors, onChange }: ChangePanelProps) {
  const units = useSession((session) => session.units);
  const names = [...new Set(changed.readings.map(readingWords))];
  return (
    <section className="limit-change" aria-label="A limit changes that readings were held against">
      <p>
        <strong>
          {changed.lines.map((line) => limitChangeWords(line, units)).join('; ') || 'The rule that decides changes'}.
        </strong>{' '}
        {names.join(', ')}: held against it before.
      </p>
      <Choice
        label="What was read before"
        value={draft.holds}
        error={errors.holds}
        onChange={(holds) => onChange({ holds })}
        options={[
          { value: 'from-the-start', words: 'The limit was entered wrongly: judge it anew' },
          { value: 'from-now-on', words: 'Keeps the limit it was held against' },
        ]}
      />
      <Field
        label="Why it changes"
        value={draft.why}
        error={errors.why}
        onChange={(why) => onChange({ why })}
        hint="It stands on the certificate, with your name."
      />
    </section>
  );
}
