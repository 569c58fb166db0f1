import { Button, FieldError, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from 'react-aria-components';
import type { Option } from './Choice.tsx';
import './pick.css';

interface PickProps<Value extends string> {
  readonly label: string;
  readonly options: readonly Option<Value>[];
  readonly value: Value | undefined;
  readonly onChange: (value: Value) => void;
  /** Leaves the label to whoever cannot see. */
  readonly bare?: boolean;
  /** Joined to the field at its left, as its unit. */
  readonly joined?: boolean;
  readonly placeholder?: string;
  readonly error?: string | undefined;
}

/** One out of many, opened when needed. */
export function Pick<Value extends string>(props: PickProps<Value>) {
  const { label, options, value, onChange, bare = false, joined = false, placeholder = 'Choose', error } = props;
  return (
    <Select
      className={`pick${joined ? ' pick--joined' : ''}`}
      value={value ?? null}
      onChange={(chosen) => {
        const option = options.find((one) => one.value === chosen);
        if (option !== undefined) onChange(option.value);
      }}
      placeholder={placeholder}
      isInvalid={error !== undefined}
      {...(bare ? { 'aria-label': label } : {})}
    >
      {bare ? undefined : <Label className="field__label">{label}</Label>}
      <Button className="pick__button">
        <SelectValue className="pick__value" />
        <span aria-hidden="true" className="pick__arrow" />
      </Button>
      <FieldError className="field__error">{error}</FieldError>
      <Popover className="pick__popover">
        <ListBox className="pick__list">
          {options.map((option) => (
            <ListBoxItem key={option.value} id={option.value} className="pick__item">
              {option.words}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </Select>
  );
}
