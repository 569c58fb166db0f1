import { FieldError, Label, Radio, RadioGroup } from 'react-aria-components';
import './choice.css';

export interface Option<Value extends string> {
  readonly value: Value;
  readonly words: string;
}

interface ChoiceProps<Value extends string> {
  readonly label: string;
  readonly options: readonly Option<Value>[];
  readonly value: Value | undefined;
  readonly onChange: (value: Value) => void;
  readonly error?: string | undefined;
  /** Leaves the label to whoever cannot see; for places where the words around say it. */
  readonly bare?: boolean;
}

/** A few things of which one holds, all of them in sight. */
export function Choice<Value extends string>(props: ChoiceProps<Value>) {
  const { label, options, value, onChange, error, bare = false } = props;
  return (
    <RadioGroup
      className="choice"
      value={value ?? null}
      onChange={(chosen) => {
        const option = options.find((one) => one.value === chosen);
        if (option !== undefined) onChange(option.value);
      }}
      isInvalid={error !== undefined}
      orientation="horizontal"
      {...(bare ? { 'aria-label': label } : {})}
    >
      {bare ? undefined : <Label className="field__label">{label}</Label>}
      <div className="choice__options">
        {options.map((option) => (
          <Radio key={option.value} value={option.value} className="choice__option">
            {option.words}
          </Radio>
        ))}
      </div>
      <FieldError className="field__error">{error}</FieldError>
    </RadioGroup>
  );
}
