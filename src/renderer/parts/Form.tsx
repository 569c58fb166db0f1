import type { ReactNode } from 'react';

interface FormProps {
  readonly className: string;
  /** The words of the action, for whoever listens; the button that is seen stands beside the stage. */
  readonly words: string;
  readonly submit: () => void;
  readonly children: ReactNode;
}

/**
 * Fields that Enter goes through: from one that is asked for to the next that is still empty, and after the last it keeps
 * them, as the one action beside the stage does. Numbers are typed on a number block, with Enter after each.
 */
export const Form = ({ className, words, submit, children }: FormProps) => (
  <form
    className={className}
    onSubmit={(event) => {
      event.preventDefault();
      const empty = nextEmpty(event.currentTarget);
      if (empty === undefined) submit();
      else empty.focus();
    }}
  >
    {children}
    <button type="submit" className="unseen" tabIndex={-1}>
      {words}
    </button>
  </form>
);

/** The next empty field that is asked for, below the one that has the caret, else above it. */
function nextEmpty(form: HTMLFormElement): HTMLInputElement | undefined {
  const asked = [...form.querySelectorAll<HTMLInputElement>('input[data-asked]')];
  const here = asked.findIndex((field) => field === document.activeElement);
  return [...asked.slice(here + 1), ...asked.slice(0, Math.max(0, here))].find((field) => field.value.trim() === '');
}
