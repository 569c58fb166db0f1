import type { ReactNode } from 'react';
import { Button as Pressable } from 'react-aria-components';
import './button.css';

interface ButtonProps {
  readonly children: ReactNode;
  readonly onPress: () => void;
  /** `next` is the one action that stands out; `plain` what else can be done; `quiet` for what lies at the edge. */
  readonly look?: 'next' | 'plain' | 'quiet';
  readonly disabled?: boolean;
  /** The key that does the same, shown on the button. */
  readonly keyHint?: string | undefined;
  /** What the words leave to the eye (of which step, of which gauge), said after them to whoever listens. */
  readonly more?: string;
}

export function Button({ children, onPress, look = 'plain', disabled = false, keyHint, more }: ButtonProps) {
  return (
    <Pressable className={`button button--${look}`} onPress={onPress} isDisabled={disabled}>
      <span className="button__words">
        {children}
        {more === undefined ? undefined : <span className="unseen">, {more}</span>}
      </span>
      {keyHint === undefined ? undefined : <kbd className="button__key">{keyHint}</kbd>}
    </Pressable>
  );
}
