import type { Flag } from '../../measuring/backlash/measured.ts';
import { whyRefused } from '../../measuring/backlash/sentences.ts';
import type { NoPlay } from '../../measuring/endPlay.ts';
import type { NoRunout } from '../../measuring/runout/runoutMeasured.ts';
import type { NoTorque } from '../../measuring/torque/result.ts';

/** Reasons in the few words a line of the job has room for. */
const short: Readonly<Record<Flag | NoRunout | NoTorque | NoPlay | 'not-measured' | 'read-once', string>> = {
  drift: 'both rests drift',
  'not-held': 'not held at rest',
  'end-of-travel': 'end of the stem’s travel',
  'one-sided': 'one side only',
  'not-repeatable': 'rocks do not repeat',
  'unit-jump': 'unit or turn jumped',
  gap: 'readings missing',
  'correlated-noise': 'readings wandered',
  'read-once': 'read once off a dial',
  'not-measured': 'not measured',
  'not-moved': 'nothing moved',
  'nothing-measured': 'nothing measured',
  'stem-lifted': 'stem put down or lifted in it',
  'too-short': 'too short',
  'start-not-seen': 'start not seen',
  'stem-landing': 'stem still coming down',
  'not-turned': 'no turn was seen',
  'too-few': 'too few readings',
  'part-turn': 'no whole turn',
  'too-few-stations': 'too few stations',
  held: 'gauge held its value',
};

/** Records of another time may carry reasons that are not known any more; the types do not tell them from these. */
const recorded: Readonly<Record<string, string | undefined>> = short;

/** A reason this table does not know is shown as it is, never hidden. */
export const reasonShort = (reason: string): string => recorded[reason] ?? reason.replaceAll('-', ' ');

/** Why there is no number and what to look at, as measuring says it. */
export const reasonSentence = (reason: string): string => sentences[reason] ?? `No number: ${reasonShort(reason)}.`;

const sentences: Readonly<Record<string, string | undefined>> = whyRefused;
