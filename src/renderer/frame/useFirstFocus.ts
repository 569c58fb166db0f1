import { useEffect } from 'react';
import { useRoute } from '../stores/route.ts';

/**
 * Whoever comes to a screen stands at the first thing to do there: the first empty field that is asked for, else the one
 * action that stands out. A focus that somebody set, or that a screen gave itself, is left alone.
 */
export function useFirstFocus(): void {
  useEffect(() => {
    focusSoon();
    return useRoute.subscribe(focusSoon);
  }, []);
}

/** Once the screen is drawn. */
const focusSoon = (): void =>
  void requestAnimationFrame(() => {
    if (document.activeElement === document.body) firstThing()?.focus({ preventScroll: true });
  });

/** On the door the letters are commands, so that its field is not entered by itself. */
function firstThing(): HTMLElement | undefined {
  const fields = [...document.querySelectorAll<HTMLInputElement>('main form:not(.builds__start) input[data-asked]')];
  const empty = fields.find((field) => field.value.trim() === '');
  return empty ?? document.querySelector<HTMLElement>('.button--next:not([disabled])') ?? undefined;
}
