import { dayText, timeText } from '../../shared/presentation/words/days.ts';

/** At the stand, times are those of the clock on the wall. */
const here = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** A day, or the day of an instant, as a person recognises it: "25 Nov 2026". */
export const dayWords = (date: string): string => dayText(date, here);

/** With the time of day: "25 Nov 2026, 14:05". */
export const timeWords = (instant: string): string => timeText(instant, here);
