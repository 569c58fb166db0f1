import { Field } from './Field.tsx';
import { Pick } from './Pick.tsx';
import { type Measure, type QuantityDraft, unitOptions } from './quantity.ts';

interface QuantityFieldProps {
  readonly label: string;
  readonly measure: Measure;
  readonly draft: QuantityDraft;
  readonly onChange: (draft: QuantityDraft) => void;
  readonly error?: string | undefined;
  readonly hint?: string | undefined;
  readonly autoFocus?: boolean;
  readonly asked?: boolean;
}

/** A number that is never without its unit. */
export function QuantityField(props: QuantityFieldProps) {
  const { label, measure, draft, onChange, error, hint, autoFocus = false, asked = false } = props;
  return (
    <Field
      label={label}
      value={draft.text}
      onChange={(text) => onChange({ ...draft, text })}
      error={error}
      hint={hint}
      inputMode="decimal"
      autoFocus={autoFocus}
      asked={asked}
      beside={
        <Pick
          bare
          joined
          label={`Unit of ${label}`}
          options={unitOptions(measure)}
          value={draft.unit}
          onChange={(unit) => onChange({ ...draft, unit })}
        />
      }
    />
  );
}
