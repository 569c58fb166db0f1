import { z } from 'zod';
import { gaugeCheckSchema } from '../job/records/gaugeCheck.ts';
import { idSchema } from '../basics/recorded.ts';
import { question } from './message.ts';

export const gaugeCheckQuestions = {
  /** Newest first. */
  'gauge-checks.list': question(z.strictObject({ gauge: idSchema }), z.array(gaugeCheckSchema)),
  /** The last one of each gauge that was ever checked. */
  'gauge-checks.last': question(z.strictObject({}), z.array(gaugeCheckSchema)),
  /** The numbers are read from the journal, not told. */
  'gauge-checks.keep': question(gaugeCheckSchema.omit({ at: true, zero: true, shown: true }), gaugeCheckSchema),
} as const;

export const gaugeCheckTopics = { 'gauge-checked': gaugeCheckSchema } as const;
