import { demo } from './verbs/demo.ts';
import { measure } from './verbs/measure.ts';
import type { Verb } from './verb.ts';

/** The verbs of the command line, in the order of its help. */
export const verbs: readonly Verb[] = [measure, demo];
