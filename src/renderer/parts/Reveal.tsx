import type { ReactNode } from 'react';
import { Button, Dialog, DialogTrigger, Heading, Popover } from 'react-aria-components';
import { Button as Done } from './Button.tsx';
import './pick.css';
import './reveal.css';

interface RevealProps {
  /** What is set here, for the heading and for whoever cannot see the picture. */
  readonly label: string;
  /** How it stands now, on the button. */
  readonly words: string;
  readonly children: ReactNode;
  /** Stands among fields: the label above it, as theirs. */
  readonly inForm?: boolean;
  /** What is wrong with a field in it: nobody looks for it behind a button. */
  readonly error?: string | undefined;
}

/** A few fields that are set once and stay out of the way: the button says how they stand. */
export const Reveal = ({ inForm = false, ...props }: RevealProps) =>
  inForm ? (
    <div className="pick">
      <span aria-hidden="true" className="field__label">
        {props.label}
      </span>
      <Revealing {...props} />
      {props.error === undefined ? undefined : (
        <span role="alert" className="field__error">
          {props.error}
        </span>
      )}
    </div>
  ) : (
    <Revealing {...props} />
  );

const Revealing = ({ label, words, children, error }: Omit<RevealProps, 'inForm'>) => (
  <DialogTrigger>
    <Button
      className={`pick__button reveal__button${error === undefined ? '' : ' reveal__button--wrong'}`}
      aria-label={`${label}: ${words}`}
    >
      <span className="pick__value">{words}</span>
      <span aria-hidden="true" className="pick__arrow" />
    </Button>
    <Popover className="pick__popover reveal__popover" placement="bottom end">
      <Dialog className="reveal">
        {({ close }) => (
          <>
            <Heading slot="title" className="reveal__title">
              {label}
            </Heading>
            {children}
            <Done onPress={close}>Done</Done>
          </>
        )}
      </Dialog>
    </Popover>
  </DialogTrigger>
);
