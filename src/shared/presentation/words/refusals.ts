import { whyRefused } from '../../measuring/backlash/sentences.ts';

/** Reasons in the few words a line of the job has room for. */
const short: Readonly<Record<string, string>> = {
  drift: 'both rests drift',
  'not-held': 'not held at rest',
  'end-of-travel': 'end of the stem’s travel',
  'one-sided': 'one side only',
  'not-repeatable': 'rocks do not repeat',
  'unit-jump': 'unit or turn jumped',
  gap: 'readings missing',
  'not-measured': 'not measured',
  'nothing-measured': 'nothing measured',
  'stem-lifted': 'stem put down or lifted in it',
};

/** A reason this table does not know is shown as it is, never hidden. */
export const reasonShort = (reason: string): string => short[reason] ?? reason.replaceAll('-', ' ');

/** Why there is no number and what to look at, as measuring says it. */
export const reasonSentence = (reason: string): string => sentences[reason] ?? `No number: ${reasonShort(reason)}.`;

const sentences: Readonly<Record<string, string>> = whyRefused;
