/** An instant as a day a person recognises, in the machine's own zone: "25 Nov 2026". */
export const dayWords = (instant: string): string =>
  new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' }).format(new Date(instant));

/** With the time of day: "25 Nov 2026, 14:05". */
export const timeWords = (instant: string): string =>
  new Intl.DateTimeFormat('en-GB', {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
  }).format(new Date(instant));
