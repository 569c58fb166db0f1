import { Button, ComboBox, FieldError, Input, Label, ListBox, ListBoxItem, Popover, Text } from 'react-aria-components';
import type { Option } from './Choice.tsx';
import './field.css';
import './pick.css';

interface SuggestProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** What is likely; anything else can be written. */
  readonly options: readonly Option<string>[];
  readonly error?: string | undefined;
  readonly hint?: string | undefined;
  readonly inputMode?: 'text' | 'numeric';
}

/** One line that is written by hand, or taken from a list of what is likely there. */
export function Suggest({ label, value, onChange, options, error, hint, inputMode = 'text' }: SuggestProps) {
  return (
    <ComboBox
      className="field"
      allowsCustomValue
      allowsEmptyCollection={false}
      menuTrigger="manual"
      inputValue={value}
      onInputChange={onChange}
      items={options}
      // The whole list is shown, whatever is written: it says what there is, and is short.
      defaultFilter={() => true}
      isInvalid={error !== undefined}
    >
      <Label className="field__label">{label}</Label>
      <span className="field__row">
        <Input className="field__input" autoComplete="off" inputMode={inputMode} />
        {options.length === 0 ? undefined : (
          <Button className="pick__button suggest__button">
            <span aria-hidden="true" className="pick__arrow" />
          </Button>
        )}
      </span>
      {hint === undefined || error !== undefined ? undefined : (
        <Text slot="description" className="field__hint">
          {hint}
        </Text>
      )}
      <FieldError className="field__error">{error}</FieldError>
      <Popover className="pick__popover">
        <ListBox<Option<string>> className="pick__list">
          {(option) => (
            <ListBoxItem id={option.value} textValue={option.value} className="pick__item">
              {option.words}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}

/** Options that are called what they are. */
export const asWritten = (values: readonly string[]): readonly Option<string>[] =>
  values.map((value) => ({ value, words: value }));
