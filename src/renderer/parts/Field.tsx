import type { ReactNode } from 'react';
import { FieldError, Input, Label, Text, TextArea, TextField } from 'react-aria-components';
import './field.css';

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** What is wrong with it, in a sentence. */
  readonly error?: string | undefined;
  readonly hint?: string | undefined;
  readonly lines?: number;
  readonly type?: 'text' | 'date' | 'search' | 'password';
  readonly inputMode?: 'text' | 'decimal' | 'numeric';
  /** Something that belongs to the field and stands in it at the right: its unit. */
  readonly beside?: ReactNode;
  readonly autoFocus?: boolean;
  /** The form is not whole without it: Enter comes to it while it is empty. */
  readonly asked?: boolean;
}

/** One line (or a few) that is written by hand, with its label above and what is wrong below. */
export function Field(props: FieldProps) {
  const { label, value, onChange, error, hint, lines = 1, beside } = props;
  return (
    <TextField className="field" value={value} onChange={onChange} isInvalid={error !== undefined}>
      <Label className="field__label">{label}</Label>
      <span className="field__row">
        {lines > 1 ? <TextArea className="field__input" rows={lines} /> : <FieldInput {...props} />}
        {beside}
      </span>
      {hint === undefined || error !== undefined ? undefined : (
        <Text slot="description" className="field__hint">
          {hint}
        </Text>
      )}
      <FieldError className="field__error">{error}</FieldError>
    </TextField>
  );
}

const FieldInput = ({ type = 'text', inputMode, autoFocus, asked }: FieldProps) => (
  <Input
    className="field__input"
    type={type}
    autoComplete="off"
    {...(inputMode === undefined ? {} : { inputMode })}
    {...(autoFocus === true ? { autoFocus: true } : {})}
    {...(asked === true ? { 'data-asked': '' } : {})}
  />
);
