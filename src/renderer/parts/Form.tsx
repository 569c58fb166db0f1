import type { ReactNode } from 'react';

interface FormProps {
  readonly className: string;
  /** The words of the action, for whoever listens; the button that is seen stands beside the stage. */
  readonly words: string;
  readonly submit: () => void;
  readonly children: ReactNode;
}

/** Fields that Enter keeps, as the one action beside the stage does. */
export const Form = ({ className, words, submit, children }: FormProps) => (
  <form
    className={className}
    onSubmit={(event) => {
      event.preventDefault();
      submit();
    }}
  >
    {children}
    <button type="submit" className="unseen" tabIndex={-1}>
      {words}
    </button>
  </form>
);
