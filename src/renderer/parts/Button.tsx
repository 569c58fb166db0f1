import type { ReactNode } from 'react';
import { Button as Pressable } from 'react-aria-components';
import './button.css';

export interface ButtonProps {
  readonly children: ReactNode;
  readonly onPress: () => void;
  /** `next` is the one action that stands out; `plain` what else can be done; `quiet` for what lies at the edge. */
  readonly look?: 'next' | 'plain' | 'quiet';
  readonly disabled?: boolean;
  /** The key that does the same, shown on the button. */
  readonly keyHint?: string | undefined;
  /** Name for whoever cannot see the picture, where the words alone do not say it. */
  readonly label?: string;
}

export function Button({ children, onPress, look = 'plain', disabled = false, keyHint, label }: ButtonProps) {
  return (
    <Pressable
      className={`button button--${look}`}
      onPress={onPress}
      isDisabled={disabled}
      {...(label === undefined ? {} : { 'aria-label': label })}
    >
      <span className="button__words">{children}</span>
      {keyHint === undefined ? undefined : <kbd className="button__key">{keyHint}</kbd>}
    </Pressable>
  );
}
