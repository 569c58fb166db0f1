import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import type { LinkFieldsProps } from './linkFieldsProps.ts';
import { lineEnds } from './linkDraft.ts';

const ends = lineEnds.map((value) => ({
  value,
  words: { '\r': 'then CR', '\n': 'then LF', '\r\n': 'then CR LF', '': 'and no more' }[value],
}));

/** Whether the gauge sends of itself, or only what it is asked for: then with what, and how often. */
export const AskFields = ({ draft, errors, onChange }: LinkFieldsProps) => (
  <>
    <div className="gauge-form__wide">
      <Choice
        label="It sends"
        value={draft.sends}
        onChange={(sends) => onChange({ sends })}
        options={[
          { value: 'by-itself', words: 'By itself, or at its send key' },
          { value: 'asked', words: 'Only when it is asked' },
        ]}
      />
    </div>
    {draft.sends === 'asked' ? (
      <>
        <Field
          label="It is asked with"
          value={draft.ask}
          error={errors.ask}
          hint="From its manual. A byte that is no character is written %1B."
          onChange={(ask) => onChange({ ask })}
          beside={
            <Pick
              bare
              joined
              label="End of the request"
              options={ends}
              value={ends.find(({ value }) => value === draft.askEnd)?.value}
              onChange={(askEnd) => onChange({ askEnd })}
            />
          }
        />
        <Field
          label="Every so many milliseconds"
          inputMode="numeric"
          value={draft.askEvery}
          error={errors.askEvery}
          onChange={(askEvery) => onChange({ askEvery })}
        />
      </>
    ) : undefined}
  </>
);
